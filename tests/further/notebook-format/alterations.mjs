/** A notebook with every kind of cell and output, and texts that are cut into lines in all ways. */
export const base = {
  nbformat: 4,
  nbformat_minor: 5,
  metadata: {
    title: 'λ',
    authors: [{ name: 'A' }],
    kernelspec: { name: 'tslab', display_name: 'TypeScript', language: 'typescript' },
    language_info: {
      name: 'typescript',
      file_extension: '.ts',
      mimetype: 'text/typescript',
      codemirror_mode: { name: 'x' },
    },
    10: { 9: 1, a: null },
  },
  cells: [
    {
      cell_type: 'markdown',
      id: 'a',
      metadata: { tags: ['x', 'y'], name: 'first' },
      source: ['# One\r\n', 'two\u2028three\u0085four\n', ''],
      attachments: { 'p.png': { 'image/png': 'AAAA' } },
    },
    {
      cell_type: 'raw',
      id: 'b-_9',
      metadata: { format: 'text/html', jupyter: { source_hidden: true } },
      source: '',
    },
    {
      cell_type: 'code',
      id: 'c',
      metadata: {
        collapsed: false,
        scrolled: 'auto',
        jupyter: { outputs_hidden: true },
        execution: { 'iopub.status.busy': '2026-01-01T00:00:00Z' },
      },
      source: 'let é = "\\u0001\u007f";\f\n\n',
      execution_count: 3,
      outputs: [
        { output_type: 'stream', name: 'stdout', text: 'a\n\nb\rc' },
        {
          output_type: 'display_data',
          metadata: { isolated: true },
          data: {
            'text/plain': 'x\ny\n',
            'text/html': ['<b>', '</b>'],
            'image/svg+xml': '<svg>\n</svg>',
            'application/javascript': '1;\n2;',
            'image/png': 'AAAA',
            'application/json': { b: [1, 2.5, -3, 'x\ny'], a: {} },
            'application/vnd.plotly.v1+json': { data: [{ y: [1.5, null, -2] }], layout: { 2: 1, 10: 2 } },
          },
        },
        { output_type: 'execute_result', metadata: {}, data: {}, execution_count: 3 },
        { output_type: 'error', ename: 'E', evalue: '', traceback: ['a\nb', ''] },
      ],
    },
    { cell_type: 'code', id: 'd', metadata: {}, source: '', execution_count: null, outputs: [] },
  ],
};

const VALUES = [null, true, 0, -1, 1.5, '', 'text', 'a,b', 'a b', [], ['x'], ['x', 'x'], [1], {}, { x: 1 }];

/** Every place of a notebook with every value in it, every field left out, and one field too many in each object. */
export function* alterations(notebook) {
  yield* walk(notebook, []);
  function* walk(value, path) {
    if (path.length > 0) {
      for (const other of VALUES)
        yield [`${path.join('.')} = ${JSON.stringify(other)}`, put(notebook, path, other)];
      if (!Array.isArray(at(notebook, path.slice(0, -1))))
        yield [`${path.join('.')} left out`, put(notebook, path, undefined)];
    }
    if (typeof value !== 'object' || value === null) return;
    if (!Array.isArray(value))
      yield [`${path.join('.')} with a field too many`, put(notebook, [...path, 'surplus'], 1)];
    for (const key of Object.keys(value)) yield* walk(value[key], [...path, key]);
  }
}

function at(value, path) {
  return path.reduce((part, key) => part[key], value);
}

function put(notebook, path, value) {
  const copy = structuredClone(notebook);
  const last = path[path.length - 1];
  const parent = at(copy, path.slice(0, -1));
  if (value === undefined) delete parent[last];
  else parent[last] = value;
  return copy;
}
