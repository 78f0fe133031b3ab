// Everything that can go wrong with a run: what it says, its exit code, and what it leaves behind.
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  check,
  leftBehind,
  processesOf,
  readNotebook,
  run,
  session,
  start,
  textOf,
  until,
  workFolder,
} from './bench.mjs';

const table = [];
const before = `console.log('written before');`;

/** One fault of a notebook: it fails with exit code 4, keeps what it wrote, and leaves nothing behind. */
async function notebookFault(name, cells, expected, extra = []) {
  const work = workFolder('fault');
  const file = work.put('trial.ipynb', [before, ...cells]);
  const { code, err } = await run(work, ['rerun', file, '--out', work.out, '--fence', 'none', ...extra]);
  const line = err.split('\n').find((text) => text.startsWith(file)) ?? err.trim().split('\n').at(-1);
  check(`${name}: exit 4`, code === 4, `exit ${code}`);
  check(`${name}: says what and where`, expected.test(line ?? ''), line?.replace(`${work.folder}/in/`, ''));
  const names = existsSync(work.out) ? readdirSync(work.out).sort() : [];
  check(
    `${name}: only the failed notebook and the record`,
    names.join() === 'run.json,trial.failed.ipynb',
    names.join(),
  );
  const notebook = names.includes('trial.failed.ipynb')
    ? readNotebook(work, 'trial.failed.ipynb')
    : { cells: [], metadata: {} };
  check(`${name}: keeps the outputs so far`, textOf(notebook).includes('written before'));
  const first = [notebook.cells[0]?.source].flat().join('');
  check(
    `${name}: cannot be taken for a result`,
    notebook.metadata.halfmax?.status === 'failed' && /failed/.test(first),
  );
  const text = names.includes('trial.failed.ipynb')
    ? readFileSync(join(work.out, 'trial.failed.ipynb'), 'utf8')
    : '';
  check(`${name}: no path of the machine`, !text.includes(work.folder) && !text.includes('/node_modules/'));
  const left = await leftBehind(work);
  check(`${name}: nothing left behind`, left === '', left);
  table.push({
    fault: name,
    exit: code,
    says: line?.replace(`${work.folder}/in/`, ''),
    left: left || 'nothing',
  });
  work.remove();
  return notebook;
}

async function commandFault(name, make, expectedCode, expected) {
  const work = workFolder('fault');
  const { args, after } = await make(work);
  const { code, err } = await run(work, args);
  const line = err.trim().split('\n').at(-1);
  check(`${name}: exit ${expectedCode}`, code === expectedCode, `exit ${code}`);
  check(`${name}: says what`, expected.test(err), line?.replaceAll(`${work.folder}/`, ''));
  const left = await leftBehind(work);
  check(`${name}: nothing left behind`, left === '', left);
  table.push({
    fault: name,
    exit: code,
    says: line?.replaceAll(`${work.folder}/`, ''),
    left: left || 'nothing',
  });
  await after?.(work);
  work.remove();
}

export async function faults() {
  const thrown = await notebookFault(
    'a cell that throws',
    [
      `interface Pair {\n  a: number;\n}\n\nconst p: Pair = { a: 1 };\nthrow new TypeError('no light ' + p.a);`,
      `console.log('not run')`,
    ],
    /trial\.ipynb: cell 2 \(cell-2\), line 6: TypeError: no light 1/,
  );
  const [error] = thrown.cells[2]?.outputs?.filter(({ output_type }) => output_type === 'error') ?? [];
  check('a cell that throws: error output', error?.ename === 'TypeError' && error.evalue === 'no light 1');
  check('a cell that throws: later cells are not run', thrown.cells[3]?.execution_count === null);
  await notebookFault(
    'a type error',
    [`\n\nconst nm: string = 656.3;`],
    /cell 2 \(cell-2\), line 3: TypeScriptError: .*number.*string/,
  );
  await notebookFault(
    'a rejection that nobody handles',
    [`\nvoid Promise.reject(new RangeError('lost'));`],
    /cell 2 \(cell-2\), line 2: RangeError: lost/,
  );
  await notebookFault(
    'a fault after its cell',
    [
      `setTimeout(() => {\n  throw new Error('late');\n}, 300);`,
      `await new Promise((r) => setTimeout(r, 1000));`,
    ],
    /Error: late/,
  );
  await notebookFault(
    'a loop without end',
    [`console.log('in the loop');\nfor (;;) {}`],
    /cell 2 \(cell-2\).*TimeLimit: did not end within 2 s/,
    ['--timeout', '2'],
  );
  await notebookFault(
    'a promise without end',
    [`await new Promise(() => {});`],
    /TimeLimit: did not end within 2 s/,
    ['--timeout', '2'],
  );
  await notebookFault(
    'a loop without end behind an await',
    [`await null;\nfor (;;) {}`],
    /TimeLimit: did not end within 2 s/,
    ['--timeout', '2'],
  );
  await notebookFault('a kernel that ends itself', [`process.exit(3);`], /KernelEnded: .*exit code 3/);
  await notebookFault(
    'a kernel that is killed',
    [`process.kill(process.pid, 'SIGKILL');\nawait new Promise(() => {});`],
    /KernelEnded: .*SIGKILL/,
  );
  await notebookFault(
    'a heap that is full',
    [`const all: number[][] = [];\nfor (;;) all.push(new Array(1e6).fill(1.5));`],
    /OutOfMemory: ran out of memory \(limit 512 MB\)/,
    ['--memory', '512'],
  );
  await notebookFault(
    'typed arrays without end',
    [`const all: Float64Array[] = [];\nfor (;;) all.push(new Float64Array(1e7).fill(1));`],
    /RangeError: Array buffer allocation failed|OutOfMemory/,
    ['--memory', '512'],
  );
  await notebookFault(
    'a process that the notebook leaves running',
    [
      `import { spawn } from 'node:child_process';\nspawn('sleep', ['600'], { detached: true, stdio: 'ignore' }).unref();\nthrow new Error('bye');`,
    ],
    /Error: bye/,
  );
  await interrupts();
  await commands();
  await disk();
  return table;
}

/** Ctrl-C and its like, at the runner, while a cell runs. */
async function interrupts() {
  for (const [signal, exit] of [
    ['SIGINT', 130],
    ['SIGTERM', 130],
    ['SIGKILL', null],
  ]) {
    const work = workFolder('fault');
    const file = work.put('trial.ipynb', [before, `for (;;) {}`]);
    const { child, done, state } = start(work, ['rerun', file, '--out', work.out, '--fence', 'none']);
    await until(() => state.err.includes('cell 1 of 2'));
    await new Promise((resolve) => setTimeout(resolve, 300));
    const [kernel] = readdirSync(work.tmp);
    const folderMode = statSync(join(work.tmp, kernel)).mode & 0o777;
    const fileMode = statSync(join(work.tmp, kernel, 'connection.json')).mode & 0o777;
    if (signal === 'SIGINT') {
      check('connection: folder for this user alone', folderMode === 0o700, folderMode.toString(8));
      check('connection: file for this user alone', fileMode === 0o600, fileMode.toString(8));
      const sockets = readdirSync(join(work.tmp, kernel)).filter((name) => name.startsWith('k-'));
      check('connection: Unix sockets, no port', sockets.length === 5, sockets.join());
    }
    child.kill(signal);
    const { code } = await done;
    check(`${signal} to the runner: exit ${exit}`, code === exit, `exit ${code}`);
    const out = existsSync(work.out) ? readdirSync(work.out) : null;
    if (signal === 'SIGKILL') {
      // Nothing can be done by a process that is killed: its kernel ends itself and takes its folder with it.
      await until(() => processesOf(work).length === 0, 5000);
      check(
        'SIGKILL to the runner: no process, no socket left',
        processesOf(work).length === 0 && readdirSync(work.tmp).length === 0,
        readdirSync(work.tmp).join(),
      );
      check(
        'SIGKILL to the runner: nothing that looks like a result',
        !(out ?? []).includes('trial.ipynb'),
        (out ?? []).join(),
      );
      const again = await run(work, [
        'rerun',
        work.put('good.ipynb', [before]),
        '--out',
        join(work.folder, 'out2'),
        '--fence',
        'none',
      ]);
      check(
        'SIGKILL to the runner: the next run is not in its way',
        again.code === 0,
        again.err.trim().split('\n').at(-1),
      );
      table.push({
        fault: 'the runner is killed (SIGKILL)',
        exit: code,
        says: '',
        left: `a stale lock in the out folder (${(out ?? []).join(', ')})`,
      });
    } else {
      const left = await leftBehind(work);
      check(
        `${signal} to the runner: nothing left behind`,
        left === '' && out === null,
        left || (out ?? []).join(),
      );
      table.push({
        fault: `${signal} to the runner`,
        exit: code,
        says: 'interrupted',
        left: left || 'nothing',
      });
    }
    work.remove();
  }
}

async function commands() {
  const good = (work) => work.put('good.ipynb', [before]);
  const basic = (work) => ['rerun', good(work), '--out', work.out, '--fence', 'none'];
  await commandFault(
    'an out folder that holds something else',
    (work) => {
      mkdirSync(work.out);
      writeFileSync(join(work.out, 'letter.txt'), 'dear');
      return {
        args: basic(work),
        after: () =>
          check(
            'an out folder that holds something else: is untouched',
            readdirSync(work.out).join() === 'letter.txt',
          ),
      };
    },
    2,
    /letter\.txt: the folder holds something that is not of a run/,
  );
  await commandFault(
    "an out folder that is the notebooks' own",
    (work) => {
      const file = good(work);
      return { args: ['rerun', file, '--out', join(work.folder, 'in'), '--fence', 'none'] };
    },
    2,
    /not of a run/,
  );
  await commandFault(
    'an out folder that is a file',
    (work) => {
      writeFileSync(join(work.folder, 'file'), '');
      return { args: ['rerun', good(work), '--out', join(work.folder, 'file'), '--fence', 'none'] };
    },
    2,
    /is a file, not a folder/,
  );
  await commandFault(
    'a file in the way of a result',
    async (work) => {
      await run(work, basic(work));
      writeFileSync(join(work.out, 'other.ipynb'), 'mine');
      return {
        args: ['rerun', work.put('other.ipynb', [before]), '--out', work.out, '--fence', 'none'],
        after: () =>
          check(
            'a file in the way of a result: is untouched',
            readFileSync(join(work.out, 'other.ipynb'), 'utf8') === 'mine',
          ),
      };
    },
    2,
    /is in the way/,
  );
  await commandFault(
    'two runs at once',
    async (work) => {
      const slow = work.put('slow.ipynb', [
        `console.log('slow');\nawait new Promise((r) => setTimeout(r, 6000));`,
      ]);
      const first = start(work, ['rerun', slow, '--out', work.out, '--fence', 'none']);
      await until(() => existsSync(join(work.out, '.halfmax-notebook.lock')));
      const second = await run(work, basic(work));
      check(
        'two runs at once: the second is refused',
        second.code === 2 && /another run \(process \d+\)/.test(second.err),
        second.err.trim().split('\n').at(-1)?.replaceAll(`${work.folder}/`, ''),
      );
      const { code } = await first.done;
      check('two runs at once: the first ends well', code === 0);
      table.push({
        fault: 'two runs at once',
        exit: second.code,
        says: second.err.trim().split('\n').at(-1)?.replaceAll(`${work.folder}/`, ''),
        left: 'nothing',
      });
      return { args: ['rerun'] };
    },
    2,
    /no notebook given/,
  );
  await commandFault(
    'a lock of a run that is gone',
    (work) => {
      mkdirSync(work.out);
      const ended = Number(execFileSync(process.execPath, ['-p', 'process.pid'], { encoding: 'utf8' }));
      writeFileSync(join(work.out, '.halfmax-notebook.lock'), JSON.stringify({ pid: ended, started: '1' }));
      return { args: basic(work) };
    },
    0,
    /good\.ipynb: done/,
  );
  await commandFault(
    'a notebook that is none',
    (work) => ({ args: ['rerun', work.put('bad.ipynb', '{"cells": ['), '--out', work.out] }),
    2,
    /bad\.ipynb: is not JSON/,
  );
  await commandFault(
    'a session that is none',
    (work) => ({ args: [...basic(work), '--session', work.tmp] }),
    2,
    /holds no session\.json/,
  );
  await commandFault(
    'an input that nobody asks for',
    (work) => ({ args: [...basic(work), '--input', 'colour=red'] }),
    2,
    /colour: no notebook asked for it/,
  );
  await commandFault(
    'an input of the wrong kind',
    (work) => ({
      args: [
        'rerun',
        work.put('ask.ipynb', [
          `import { notebookInputs } from 'halfmax-notebook';`,
          `const i = notebookInputs({ tilt: 5 });`,
        ]),
        '--out',
        work.out,
        '--fence',
        'none',
        '--input',
        'tilt=much',
        '--session',
        session,
      ],
    }),
    4,
    /BadInputError: inputs: tilt: "much" is no number/,
  );
  await commandFault(
    'an unknown option',
    (work) => ({ args: [...basic(work), '--sed', '1'] }),
    2,
    /--sed: is not an option/,
  );
}

/** A disk of 64 KB, where this user may mount one. */
async function disk() {
  const work = workFolder('fault');
  mkdirSync(work.out);
  const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', work.out]).status === 0;
  if (!mounted) {
    console.log('skipped: a full disk (no right to mount a small one)');
    work.remove();
    return;
  }
  try {
    const file = work.put('trial.ipynb', [`console.log('x'.repeat(200_000));`]);
    const { code, err } = await run(work, ['rerun', file, '--out', work.out, '--fence', 'none']);
    const line = err.trim().split('\n').at(-1)?.replaceAll(`${work.folder}/`, '');
    check('a full disk: exit 2', code === 2, `exit ${code}`);
    check('a full disk: says so', /the disk is full/.test(err), line);
    const left = await leftBehind(work);
    check(
      'a full disk: nothing left behind',
      left === '' && readdirSync(work.out).length === 0,
      left || readdirSync(work.out).join(),
    );
    table.push({ fault: 'a full disk', exit: code, says: line, left: left || 'nothing' });
    // A notebook that fills it itself fails as a notebook, and its files go.
    const filler = work.put('filler.ipynb', [
      `import { notebookInputs } from 'halfmax-notebook';\nimport { writeFileSync } from 'node:fs';`,
      `const { out } = notebookInputs({ out: 'out' });`,
      `writeFileSync(out + '/big', 'x'.repeat(200_000));`,
    ]);
    const filled = await run(work, ['rerun', filler, '--out', work.out, '--fence', 'none']);
    check(
      'a disk that the notebook fills: exit 4',
      filled.code === 4 && /ENOSPC/.test(filled.err),
      filled.err.trim().split('\n').at(-2)?.replaceAll(`${work.folder}/`, ''),
    );
    const rest = await leftBehind(work);
    check(
      'a disk that the notebook fills: its files go',
      rest === '' && readdirSync(work.out).sort().join() === 'filler.failed.ipynb,run.json',
      rest || readdirSync(work.out).join(),
    );
  } finally {
    spawnSync('umount', [work.out]);
    work.remove();
  }
}
