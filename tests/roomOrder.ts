/** The laws on the imports of one package. */
export interface RoomLaws {
  /** Rooms in the order of the data's way; a room imports only from rooms before it. */
  readonly order: readonly string[];
  /** Rooms that may use modules of Node; null: all of them. */
  readonly nodeRooms: readonly string[] | null;
  /** A room whose files are imported each for itself. */
  readonly withoutIndex: string;
  /** Files that another room may import past its index.ts, each with the reason; `by` is the room that does so. */
  readonly pastTheIndex: readonly { readonly file: string; readonly by: string; readonly why: string }[];
}

const order: readonly string[] = [
  'errors',
  'reference',
  'numeric',
  'vector',
  'frames',
  'calibration',
  'transmittance',
  'metrics',
  'correction',
  'uncertainty',
  'verdict',
  'beam',
  'sky',
  'halo',
  'session',
  'measure',
  'index',
  'commands',
  'cli',
];

/** Of packages/halfmax. The commands are called by cli.ts alone, each from its own file. */
export const halfmaxLaws: RoomLaws = {
  order,
  nodeRooms: ['session', 'commands', 'cli'],
  withoutIndex: 'commands',
  pastTheIndex: [
    {
      file: 'session/benchSession.ts',
      by: 'measure',
      why: 'types of a session made in memory: the index of the session room needs Node',
    },
    {
      file: 'verdict/claim.ts',
      by: 'session',
      why: 'a type without code: a session carries claims, it judges none',
    },
    {
      file: 'frames/types.ts',
      by: 'session',
      why: 'types without code: a session carries frames, it reduces none',
    },
    { file: 'frames/types.ts', by: 'calibration', why: 'types without code' },
    { file: 'numeric/median.ts', by: 'frames', why: 'a leaf without imports' },
    { file: 'numeric/medianAbsoluteDeviation.ts', by: 'frames', why: 'a leaf that imports leaves only' },
  ],
};

/** Of packages/halfmax-notebook: all of it runs under Node. */
export const notebookLaws: RoomLaws = {
  order: [
    'notebook',
    'still',
    'display',
    'fence',
    'kernel',
    'inputs',
    'run',
    'report',
    'template',
    'exercises',
    'index',
    'commands',
    'cli',
  ],
  nodeRooms: null,
  withoutIndex: 'commands',
  pastTheIndex: [
    { file: 'display/emit.ts', by: 'inputs', why: 'a leaf: a cell that reads its inputs shows no figure' },
    { file: 'kernel/kernelSettings.ts', by: 'inputs', why: 'a leaf: a cell starts no kernel' },
  ],
};

/** An import or re-export as it stands in a source file. */
export interface ImportLine {
  readonly from: string;
  /** `import type` or `export type`: gone in the JavaScript. */
  readonly typeOnly: boolean;
}

/**
 * The modules that a source text imports or re-exports, dynamic imports and imported types included.
 *
 * @param text - TypeScript source
 * @returns in the order of the text
 */
export function importsOf(text: string): ImportLine[] {
  const code = text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/^\s*\/\/.*$/gm, '');
  const found: ImportLine[] = [];
  for (const [line, , from] of code.matchAll(/^(import|export)\s(?:[^;'"]*?\sfrom\s+)?['"]([^'"]+)['"]/gm)) {
    found.push({ from: from!, typeOnly: /^(import|export)\s+type\s/.test(line) });
  }
  for (const [, from] of code.matchAll(/\bimport\(\s*['"]([^'"]+)['"]/g))
    found.push({ from: from!, typeOnly: false });
  return found;
}

/**
 * Faults against the laws on imports.
 *
 * @param files - path under src against text, tests left out
 * @param laws - those of the package
 * @returns one sentence per fault, none where all is well
 */
export function importFaults(files: ReadonlyMap<string, string>, laws: RoomLaws = halfmaxLaws): string[] {
  const { order, withoutIndex, pastTheIndex } = laws;
  const needsNode = (room: string): boolean => laws.nodeRooms?.includes(room) ?? false;
  const mayUseNode = (room: string): boolean => laws.nodeRooms?.includes(room) ?? true;
  const faults: string[] = [];
  const used = new Set<string>();
  const inside = new Map<string, string[]>();
  for (const [path, text] of files) {
    const room = roomOf(path);
    if (!order.includes(room)) {
      faults.push(`${path}: the room ${room} has no place in the order`);
      continue;
    }
    for (const { from, typeOnly } of importsOf(text)) {
      if (!from.startsWith('.')) {
        if (isNode(from) && (!mayUseNode(room) || path === 'session/benchSession.ts')) {
          faults.push(`${path}: imports ${from}, which a browser has not`);
        }
        continue;
      }
      const target = resolve(path, from);
      if (!files.has(target)) {
        faults.push(`${path}: imports ${from}, which is no source file of the package`);
        continue;
      }
      const other = roomOf(target);
      if (other === room) {
        inside.set(path, [...(inside.get(path) ?? []), target]);
        continue;
      }
      const exception = pastTheIndex.find(({ file, by }) => file === target && by === room);
      if (exception !== undefined) used.add(`${exception.file} by ${exception.by}`);
      else if (target.includes('/') && !target.endsWith('/index.ts') && other !== withoutIndex) {
        faults.push(`${path}: imports ${target} past the index of its room`);
      }
      if (order.indexOf(other) >= order.indexOf(room)) {
        faults.push(`${path}: imports ${target} of a room after its own`);
      }
      const sessionTypes = target === 'session/benchSession.ts' && typeOnly;
      if (other === 'session' && needsNode(other) && !mayUseNode(room) && !sessionTypes) {
        faults.push(`${path}: imports ${target}, which needs Node`);
      }
    }
  }
  for (const { file, by } of pastTheIndex) {
    if (files.has(file) && !used.has(`${file} by ${by}`)) {
      faults.push(`${file}: allowed to ${by} past the index, but not used so: take it off the list`);
    }
  }
  return [...faults, ...cycles(inside)];
}

/** `metrics/types.ts` is of the room metrics, `errors.ts` of the room errors. */
function roomOf(path: string): string {
  return path.includes('/') ? path.slice(0, path.indexOf('/')) : path.replace(/\.ts$/, '');
}

function isNode(from: string): boolean {
  return (
    from.startsWith('node:') ||
    ['fs', 'path', 'os', 'process', 'crypto', 'buffer', 'url', 'util'].includes(from)
  );
}

function resolve(path: string, from: string): string {
  const parts = path.split('/').slice(0, -1);
  for (const part of from.split('/')) {
    if (part === '..') {
      if (parts.length === 0) return `../${from}`;
      parts.pop();
    } else if (part !== '.') parts.push(part);
  }
  return parts.join('/').replace(/\.js$/, '.ts');
}

/** Circles of imports between files of one room, each told once, from its first file in the order of names. */
function cycles(graph: ReadonlyMap<string, readonly string[]>): string[] {
  const done = new Set<string>();
  const told = new Set<string>();
  const visit = (file: string, way: readonly string[]): void => {
    const at = way.indexOf(file);
    if (at >= 0) {
      const circle = way.slice(at);
      const first = circle.indexOf([...circle].sort()[0]!);
      const turned = [...circle.slice(first), ...circle.slice(0, first)];
      told.add(`${turned[0]}: imports itself through ${[...turned.slice(1), turned[0]].join(', ')}`);
      return;
    }
    if (done.has(file)) return;
    for (const target of graph.get(file) ?? []) visit(target, [...way, file]);
    done.add(file);
  };
  for (const file of [...graph.keys()].sort()) visit(file, []);
  return [...told].sort();
}
