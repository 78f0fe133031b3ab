import ts from 'typescript';

/** Code whose `// =>` comments have become checks. */
export interface CheckedCode {
  /** JavaScript that calls `check(line, value, expected)` or `checkPrinted(line, arguments, expected)`. */
  readonly code: string;
  /** Lines, from 1, of the statements that are checked. */
  readonly lines: readonly number[];
  /** Names that the code uses and does not declare. */
  readonly freeNames: readonly string[];
}

const arrow = /^[ \t]*(?:\n[ \t]*)?\/\/ => ?(.*(?:\n[ \t]*\/\/ {2,}.*)*)/;

/**
 * Turns each statement that a `// =>` comment follows, on its line or the next, into a check. An expression is held
 * against the value after the arrow, a declared variable likewise, `console.log(...)` against the text it would print.
 * The value may go on over further comment lines that begin with two blanks or more.
 *
 * @param source - TypeScript or JavaScript
 * @returns JavaScript with checks
 * @throws {Error} a `// =>` that follows no statement that can be checked
 */
export function checkedCode(source: string): CheckedCode {
  const file = ts.createSourceFile('example.ts', source, ts.ScriptTarget.ES2022, true);
  const lines: number[] = [];
  const edits: { from: number; to: number; text: string }[] = [];
  const used = new Set<string>();
  const declared = new Set<string>();

  const visit = (node: ts.Node): void => {
    if (ts.isIdentifier(node)) note(node);
    if (ts.isExpressionStatement(node) || ts.isVariableStatement(node)) addCheck(node);
    node.forEachChild(visit);
  };
  const note = (node: ts.Identifier): void => {
    const { parent } = node;
    const isName = ts.isPropertyAccessExpression(parent) && parent.name === node;
    const isKey = ts.isPropertyAssignment(parent) && parent.name === node;
    if (isName || isKey) return;
    const declares =
      (ts.isVariableDeclaration(parent) || ts.isBindingElement(parent) || ts.isParameter(parent)) &&
      parent.name === node;
    if (declares || ts.isImportSpecifier(parent)) declared.add(node.text);
    else used.add(node.text);
  };
  const addCheck = (node: ts.ExpressionStatement | ts.VariableStatement): void => {
    const found = arrow.exec(source.slice(node.end));
    if (found === null) return;
    const expected = JSON.stringify(found[1]!.replace(/\n[ \t]*\/\/ */g, ' ').trim());
    const from = node.getStart(file);
    const line = file.getLineAndCharacterOfPosition(from).line + 1;
    lines.push(line);
    const [name] = ts.isVariableStatement(node)
      ? node.declarationList.declarations.map((one) => one.name)
      : [];
    if (name !== undefined) {
      if (!ts.isIdentifier(name)) throw new Error(`line ${line}: // => follows a pattern, not a name`);
      edits.push({ from: node.end, to: node.end, text: ` check(${line}, ${name.text}, ${expected});` });
    } else if (ts.isExpressionStatement(node)) {
      const { expression } = node;
      const isPrint =
        ts.isCallExpression(expression) && expression.expression.getText(file) === 'console.log';
      const text = isPrint
        ? `checkPrinted(${line}, [${expression.arguments.map((one) => one.getText(file)).join(', ')}], ${expected});`
        : `check(${line}, (${expression.getText(file)}), ${expected});`;
      edits.push({ from, to: node.end, text });
    }
  };
  visit(file);

  const arrows = source.match(/\/\/ =>/g)?.length ?? 0;
  if (arrows !== lines.length)
    throw new Error(`${arrows} comments with =>, but only ${lines.length} follow a statement`);
  let code = source;
  for (const { from, to, text } of edits.reverse()) code = code.slice(0, from) + text + code.slice(to);
  const options = {
    target: ts.ScriptTarget.ES2022,
    module: ts.ModuleKind.ESNext,
    verbatimModuleSyntax: true,
  };
  return {
    code: ts.transpileModule(code, { compilerOptions: options }).outputText,
    lines,
    freeNames: [...used].filter((name) => !declared.has(name)),
  };
}
