// Nothing is lost, and the same run gives the same bytes.
import { execFileSync } from 'node:child_process';
import { cpSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { check, leftBehind, readNotebook, root, run, session, textOf, workFolder } from './bench.mjs';

const fixtures = join(root, 'tests', 'notebook-kernel', 'notebooks');

/** 200 cells of three lines: more messages than a socket of zeromq takes in one go. */
export const manyCells = Array.from({ length: 200 }, (_, i) =>
  [1, 2, 3].map((line) => `console.log('cell ${i + 1} line ${line}');`).join('\n'),
);
export const manyLines = [`for (let i = 1; i <= 100_000; i++) console.log('line', i);`];
export const manyShown = [
  `import { display } from 'tslab';`,
  `for (let i = 1; i <= 3000; i++) {\n  console.log('text', i);\n  display.text('shown ' + i);\n}`,
];

export async function output() {
  const work = workFolder('output');
  const files = [
    work.put('cells.ipynb', manyCells),
    work.put('lines.ipynb', manyLines),
    work.put('shown.ipynb', manyShown),
  ];
  const all = await run(work, ['rerun', ...files, '--out', work.out, '--fence', 'none', '--jobs', '2']);
  check('long outputs: exit 0', all.code === 0, all.err.trim().split('\n').at(-1));
  const lines = (name) => textOf(readNotebook(work, name)).trim().split('\n');
  const cells = lines('cells.ipynb');
  const wanted = Array.from({ length: 600 }, (_, i) => `cell ${Math.floor(i / 3) + 1} line ${(i % 3) + 1}`);
  check('200 cells of three lines arrive whole', cells.join() === wanted.join(), `${cells.length} lines`);
  const long = lines('lines.ipynb');
  check(
    '100,000 lines of one cell arrive whole and in order',
    long.length === 100_000 && long.every((line, i) => line === `line ${i + 1}`),
    `${long.length} lines`,
  );
  const shown = readNotebook(work, 'shown.ipynb').cells[1].outputs;
  const inOrder = shown.every((output, i) =>
    i % 2 === 0
      ? [output.text].flat().join('') === `text ${i / 2 + 1}\n`
      : [output.data['text/plain']].flat().join('') === `shown ${(i + 1) / 2}`,
  );
  check(
    '3000 displays between 3000 lines arrive whole and in order',
    shown.length === 6000 && inOrder,
    `${shown.length} outputs`,
  );

  cpSync(fixtures, join(work.folder, 'in'), { recursive: true });
  const own = ['session', 'world', 'streams'].map((name) => join(work.folder, 'in', `${name}.ipynb`));
  const texts = {};
  for (const [name, extra] of Object.entries({
    first: [],
    again: [],
    jobs2: ['--jobs', '2'],
    seed: ['--seed', '8'],
    bwrap: ['--fence', 'bwrap'],
  })) {
    const out = join(work.folder, `out-${name}`);
    const fence = extra.includes('--fence') ? [] : ['--fence', 'none'];
    const chosen = name === 'bwrap' ? own.slice(1) : own;
    const done = await run(work, [
      'rerun',
      ...chosen,
      '--session',
      session,
      '--out',
      out,
      ...fence,
      ...extra,
    ]);
    check(`fixtures (${name}): exit 0`, done.code === 0, done.err.trim().split('\n').at(-1));
    texts[name] = Object.fromEntries(
      ['session', 'world', 'streams'].map((file) => {
        try {
          return [file, readFileSync(join(out, `${file}.ipynb`), 'utf8')];
        } catch {
          return [file, ''];
        }
      }),
    );
  }
  for (const file of ['session', 'world', 'streams']) {
    check(
      `${file}: the same bytes again`,
      texts.first[file] !== '' && texts.first[file] === texts.again[file],
    );
    check(`${file}: the same bytes with two at a time`, texts.first[file] === texts.jobs2[file]);
    if (file !== 'session')
      check(`${file}: the same bytes behind bubblewrap`, texts.first[file] === texts.bwrap[file]);
  }
  check('another seed gives other random numbers', texts.first.world !== texts.seed.world);
  const run1 = JSON.parse(texts.first.session).metadata.halfmax;
  const listed = run1.filesRead.map(({ file }) => file);
  check(
    'every file that was read is listed: session, helper, nothing of the machine',
    listed.includes('session:session.json') &&
      listed.includes('notebook:means.ts') &&
      listed.every((file) => /^(session|notebook):/.test(file)),
    `${listed.length} files`,
  );
  const digest = execFileSync('sha256sum', [join(session, 'session.json')], { encoding: 'utf8' }).slice(
    0,
    64,
  );
  check(
    'the digest is that of sha256sum',
    run1.filesRead.find(({ file }) => file === 'session:session.json')?.sha256 === digest,
  );
  check(
    'versions and the digest of the lockfile are written down',
    run1.tools.tslab === '1.0.22' &&
      run1.tools.node === process.versions.node &&
      /^[0-9a-f]{64}$/.test(run1.tools.lockfile.sha256 ?? ''),
  );

  const same = await run(work, [
    'rerun',
    join(work.folder, 'out-first', 'world.ipynb'),
    '--check',
    '--fence',
    'none',
  ]);
  check('--check of an unchanged notebook: exit 0', same.code === 0, same.out.trim() || same.err.trim());
  const changed = JSON.parse(texts.first.world);
  changed.cells[1].outputs[0].text[0] = changed.cells[1].outputs[0].text[0].replace(/\d/, '9');
  const other = await run(work, [
    'rerun',
    work.put('changed.ipynb', JSON.stringify(changed)),
    '--check',
    '--fence',
    'none',
  ]);
  check(
    '--check of a notebook with a changed number: exit 3',
    other.code === 3,
    other.out.trim().split('\n')[0],
  );
  const left = await leftBehind(work);
  check('output: nothing left behind', left === '', left);
  work.remove();
  return [];
}
