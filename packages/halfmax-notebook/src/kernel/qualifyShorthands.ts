import type { Private } from './patchedNames.js';

/** The file in which tslab declares to the compiler what earlier cells left. */
const EARLIER_CELLS = '__prev__.d.ts';

/**
 * Makes `{ name }` find a variable of an earlier cell.
 *
 * tslab writes `exports.name` for such a variable wherever its name stands, but asks the compiler what the name is; in
 * a shorthand that is the property, which belongs to the cell itself. Here the shorthand is written out before, as
 * `{ name: exports.name }`, in an object as well as in a pattern that is assigned to.
 *
 * @param typescript - tslab's compiler; changed
 */
export function qualifyShorthands(typescript: Private): void {
  const { createWatchProgram } = typescript;
  typescript.createWatchProgram = (host: Private): unknown => {
    const { afterProgramCreate } = host;
    host.afterProgramCreate = (builder: Private): void => {
      const emit = builder.emit;
      builder.emit = (...[file, write, cancel, onlyTypes, custom]: Private[]): unknown => {
        const before = [
          ...(custom?.before ?? []),
          (context: Private) => (source: Private) =>
            writtenOut(typescript, builder.getProgram().getTypeChecker(), context, source),
        ];
        return emit.call(builder, file, write, cancel, onlyTypes, { ...custom, before });
      };
      afterProgramCreate.call(host, builder);
    };
    return createWatchProgram(host);
  };
}

function writtenOut(ts: Private, checker: Private, context: Private, source: Private): Private {
  const { factory } = ts;
  const visit = (node: Private): Private => {
    if (!ts.isShorthandPropertyAssignment(node)) return ts.visitEachChild(node, visit, context);
    const symbol = checker.getShorthandAssignmentValueSymbol(node);
    const isEarlier = symbol?.declarations?.some((declaration: Private) =>
      declaration.getSourceFile().fileName.endsWith(EARLIER_CELLS),
    );
    if (isEarlier !== true) return ts.visitEachChild(node, visit, context);
    const name = node.name.text;
    const value = factory.createPropertyAccessExpression(factory.createIdentifier('exports'), name);
    const standard = node.objectAssignmentInitializer;
    const written =
      standard === undefined
        ? value
        : factory.createBinaryExpression(value, ts.SyntaxKind.EqualsToken, ts.visitNode(standard, visit));
    return ts.setTextRange(factory.createPropertyAssignment(factory.createIdentifier(name), written), node);
  };
  return ts.visitNode(source, visit);
}
