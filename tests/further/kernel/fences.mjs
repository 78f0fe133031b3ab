// Notebooks that attack, behind each fence: what every attack got. Each attack is bounded by itself.
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { check, leftBehind, readNotebook, root, run, session, textOf, workFolder } from './bench.mjs';

/** Each gives a sentence about what it got, or throws. */
const attacks = {
  'read a file of the home folder': `fs.readFileSync(HOME_FILE, 'utf8')`,
  'list the home folder': `fs.readdirSync(HOME).join()`,
  'read a file beside the notebook': `fs.readFileSync(BESIDE, 'utf8')`,
  'read the sources of the checkout': `fs.readFileSync(ROOT + '/README.md', 'utf8').slice(0, 10)`,
  'write outside of the out folder': `(fs.writeFileSync(OUTSIDE, 'x'), 'written')`,
  'write over the notebook': `(fs.writeFileSync(NOTEBOOK, 'x'), 'written')`,
  'write into the session': `(fs.writeFileSync(inputs.session + '/x', 'x'), 'written')`,
  'write over a package': `(fs.appendFileSync(ROOT + '/packages/halfmax/dist/hm-attack.js', '// x'), 'written')`,
  'start a program': `(() => { const r = child.spawnSync('/bin/echo', ['ran']); if (r.error) throw r.error; return String(r.stdout); })()`,
  'start many processes': `(() => { let n = 0; const all: child.ChildProcess[] = []; try { for (; n < 30; n++) { const p = child.spawn('/bin/sleep', ['1']); p.on('error', () => {}); if (p.pid === undefined) throw new Error('no process, EPERM'); all.push(p); } } finally { for (const p of all) p.kill(); } return n + ' processes'; })()`,
  'connect to a port of this machine': `await new Promise<string>((resolve, reject) => { const s = net.connect(PORT, '127.0.0.1', () => { s.destroy(); resolve('connected'); }); s.on('error', reject); setTimeout(reject, 3000, new Error('no answer')); })`,
  'look up a name': `(await dns.lookup('localhost.localdomain.invalid').then(() => 'answer', (e: Error) => { throw e; }))`,
  'read the environment of the runner': `fs.readFileSync('/proc/' + RUNNER + '/environ', 'latin1').length + ' bytes'`,
  'see a secret of the environment': `(() => { if (process.env['HM_SECRET'] === undefined) throw new Error('not there'); return 'seen'; })()`,
  'signal a process outside': `(process.kill(RUNNER, 0), 'signalled')`,
  'load a native addon of its own': `(() => { fs.copyFileSync(ADDON, inputs.out + '/own.node'); const m = { exports: {} }; process.dlopen(m, inputs.out + '/own.node'); return 'loaded'; })()`,
  'start a thread': `await new Promise<string>((resolve, reject) => { const w = new threads.Worker('require("node:worker_threads").parentPort.postMessage("ran")', { eval: true }); w.on('message', resolve); w.on('error', reject); })`,
  'bind a Unix socket outside': `await new Promise<string>((resolve, reject) => { const s = net.createServer(); s.on('error', reject); s.listen(SOCKET, () => { s.close(); resolve('bound'); }); })`,
  'fill memory': `(() => { const all: Float64Array[] = []; try { for (let i = 0; i < 40; i++) all.push(new Float64Array(12_500_000).fill(1)); } catch (e) { throw new Error('after ' + all.length * 100 + ' MB: ' + (e as Error).message); } return all.length * 100 + ' MB'; })()`,
};

/** What may be got behind a fence all the same, each with the reason; anything else that succeeds fails the check. */
const granted = {
  bwrap: {
    'start a thread': 'threads are part of one process, within its limits',
    'load a native addon of its own':
      'native code runs, but inside of the namespaces and the filter of system calls',
  },
  node: {
    'connect to a port of this machine': 'Node 20 has no permission for the network',
    'look up a name': 'Node 20 has no permission for the network',
    'signal a process outside': 'Node 20 has no permission for signals',
    'bind a Unix socket outside': 'Node 20 has no permission for sockets',
  },
};

async function attack(kind) {
  const work = workFolder('fence');
  const homeFile = join(homedir(), `.hm-fence-${process.pid}`);
  writeFileSync(homeFile, 'secret');
  const outside = join(work.folder, 'outside');
  const beside = join(work.folder, 'in', 'beside.txt');
  writeFileSync(beside, 'beside');
  const addon = join(root, 'node_modules', '@resvg');
  const ownSession = join(work.folder, 'session');
  cpSync(session, ownSession, { recursive: true });
  const server = createServer((socket) => socket.destroy());
  await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve));
  const notebook = join(work.folder, 'in', 'attack.ipynb');
  const names = {
    HOME: homedir(),
    HOME_FILE: homeFile,
    BESIDE: beside,
    ROOT: root.replace(/\/$/, ''),
    OUTSIDE: outside,
    NOTEBOOK: notebook,
    PORT: server.address().port,
    RUNNER: process.pid,
    ADDON: findAddon(addon),
    SOCKET: join(work.folder, 'socket'),
  };
  work.put('attack.ipynb', [
    [
      `import { notebookInputs } from 'halfmax-notebook';`,
      `import * as fs from 'node:fs';`,
      `import * as net from 'node:net';`,
      `import * as child from 'node:child_process';`,
      `import * as threads from 'node:worker_threads';`,
      `import { promises as dns } from 'node:dns';`,
    ].join('\n'),
    `const inputs = notebookInputs({ session: 's', out: 'o' });\n${Object.entries(names)
      .map(([name, value]) => `const ${name} = ${JSON.stringify(value)};`)
      .join('\n')}`,
    // A figure that is shown past the package: the runner must not draw it outside of the fence.
    `import { display } from 'tslab';\ndisplay.raw('application/vnd.plotly.v1+json', { data: [{ y: [1, 2] }] } as never);`,
    ...Object.entries(attacks).map(
      ([name, code]) =>
        `try {\n  console.log('@' + JSON.stringify([${JSON.stringify(name)}, true, String(${code})]));\n} catch (e) {\n  console.log('@' + JSON.stringify([${JSON.stringify(name)}, false, String((e as NodeJS.ErrnoException).code ?? (e as Error).message)]));\n}`,
    ),
    `fs.writeFileSync(inputs.out + '/allowed.txt', fs.readFileSync(inputs.session + '/session.json', 'utf8').slice(0, 5));`,
  ]);
  const before = readFileSync(notebook, 'utf8');
  const args = [
    'rerun',
    notebook,
    '--session',
    ownSession,
    '--out',
    work.out,
    '--fence',
    kind,
    '--memory',
    '2048',
  ];
  const { code, err } = await run(work, args, { env: { HM_SECRET: 'secret' }, cwd: root });
  server.close();
  check(
    `${kind}: the notebook runs to its end`,
    code === 0,
    code === 0 ? '' : err.trim().split('\n').slice(-3).join(' / '),
  );
  const name = code === 0 ? 'attack.ipynb' : 'attack.failed.ipynb';
  const got = new Map();
  if (existsSync(join(work.out, name))) {
    for (const line of textOf(readNotebook(work, name)).split('\n')) {
      if (!line.startsWith('@')) continue;
      const [attackName, succeeded, what] = JSON.parse(line.slice(1));
      got.set(attackName, { succeeded, what });
    }
  }
  if (code === 0) {
    const cells = readNotebook(work, 'attack.ipynb').cells.flatMap(({ outputs = [] }) => outputs);
    const figures = cells.filter(({ data }) => data?.['application/vnd.plotly.v1+json'] !== undefined);
    const drawn = figures.filter(({ data }) => 'image/png' in data).length;
    check(
      `${kind}: the runner draws a figure ${kind === 'none' ? 'of a notebook without a fence' : 'of nobody behind a fence'}`,
      figures.length === 1 && drawn === (kind === 'none' ? 1 : 0),
      `${figures.length} shown, ${drawn} drawn`,
    );
  }
  if (code === 0)
    check(
      `${kind}: the session can be read and the out folder written to`,
      existsSync(join(work.out, 'attack.files', 'allowed.txt')),
    );
  const effects = {
    'write outside of the out folder': existsSync(outside),
    'write over the notebook': readFileSync(notebook, 'utf8') !== before,
    'write into the session': existsSync(join(ownSession, 'x')),
    'write over a package': existsSync(join(root, 'packages/halfmax/dist/hm-attack.js')),
    'bind a Unix socket outside': existsSync(join(work.folder, 'socket')),
  };
  const said = err
    .split('\n')
    .filter((line) => /^(Fence|No fence|It does|The stronger|Only|The notebook)/.test(line));
  check(
    `${kind}: says which fence it is and what it does not stop`,
    said.length >= 1 && (kind === 'none' || /does not stop/.test(err)),
    said.join(' '),
  );
  const left = await leftBehind(work);
  check(`${kind}: nothing left behind`, left === '', left);
  const { rmSync } = await import('node:fs');
  rmSync(homeFile, { force: true });
  rmSync(join(root, 'packages/halfmax/dist/hm-attack.js'), { force: true });
  work.remove();
  return { got, effects };
}

/** A native addon of this system that any process may load. */
function findAddon(folder) {
  for (const entry of readdirSync(folder, { recursive: true })) {
    if (String(entry).endsWith('.node')) return join(folder, String(entry));
  }
  throw new Error(`no addon in ${folder}`);
}

export async function fences() {
  const rows = [];
  const results = {};
  for (const kind of ['bwrap', 'node', 'none']) results[kind] = await attack(kind);
  for (const name of Object.keys(attacks)) {
    for (const kind of ['bwrap', 'node']) {
      const { succeeded, what } = results[kind].got.get(name) ?? { succeeded: true, what: 'no answer' };
      const hasEffect = results[kind].effects[name];
      const why = granted[kind][name];
      const isStopped =
        hasEffect === undefined ? !succeeded : !hasEffect && (!succeeded || why !== undefined);
      check(
        `${kind}: ${name}`,
        isStopped || why !== undefined,
        `${succeeded ? 'got' : 'stopped'}: ${what}${succeeded && why ? ` (${why})` : ''}`,
      );
    }
    // The attack itself must work where nothing stops it: else its failure behind a fence shows nothing.
    const free = results.none.got.get(name) ?? { succeeded: false, what: 'no answer' };
    const cannot = ['see a secret of the environment', 'look up a name'];
    const isAttack = free.succeeded || cannot.includes(name) || name === 'fill memory';
    check(
      `none: ${name} works without a fence`,
      isAttack,
      `${free.succeeded ? 'got' : 'stopped'}: ${free.what}`,
    );
    rows.push([
      name,
      ...['bwrap', 'node', 'none'].map((kind) => {
        const { succeeded, what } = results[kind].got.get(name) ?? { succeeded: false, what: 'no answer' };
        return `${succeeded ? 'GOT' : 'stopped'} (${String(what).slice(0, 60).replace(/\s+/g, ' ')}${results[kind].effects[name] === false && succeeded ? '; no effect outside' : ''})`;
      }),
    ]);
  }
  await choices();
  return rows;
}

/** Which fence is chosen, and that it is never a weaker one in silence. */
async function choices() {
  const work = workFolder('fence');
  const file = work.put('mild.ipynb', [`console.log('mild');`]);
  const mkPath = (programs) => {
    const folder = join(work.folder, `path-${programs.length}`);
    mkdirSync(folder, { recursive: true });
    return folder;
  };
  const auto = await run(work, ['rerun', file, '--out', work.out], { cwd: root });
  check(
    'auto: bubblewrap for a notebook from elsewhere',
    auto.code === 0 && /Fence: bubblewrap/.test(auto.err),
    auto.err.split('\n')[0],
  );
  const near = await run(work, ['rerun', file, '--out', work.out], { cwd: work.folder });
  check(
    'auto: bubblewrap for a notebook of the folder that the command is given in',
    near.code === 0 && /Fence: bubblewrap/.test(near.err),
    near.err.split('\n')[0],
  );
  const ours = join(root, 'tests/notebook-kernel/notebooks/streams.ipynb');
  const own = await run(work, ['rerun', ours, '--out', join(work.folder, 'own')], { cwd: work.folder });
  check(
    'auto: none, and a sentence, for a notebook of the checkout',
    own.code === 0 && /run without a fence/.test(own.err),
    own.err.split('\n')[0],
  );
  const both = await run(work, ['rerun', ours, file, '--out', join(work.folder, 'both')]);
  check(
    'auto: bubblewrap for all where one of them is from elsewhere',
    both.code === 0 && /Fence: bubblewrap/.test(both.err),
    both.err.split('\n')[0],
  );
  const env = { PATH: mkPath([]) };
  const weaker = await run(work, ['rerun', file, '--out', work.out], { cwd: root, env });
  check(
    'auto without bubblewrap: the permission model, said aloud',
    weaker.code === 0 &&
      /permission model/.test(weaker.err) &&
      /stronger fence is not to be had/.test(weaker.err),
    weaker.err.split('\n').slice(0, 2).join(' '),
  );
  const asked = await run(work, ['rerun', file, '--out', work.out, '--fence', 'bwrap'], { cwd: root, env });
  check(
    'bwrap asked for and not there: refused',
    asked.code === 2 && /not installed/.test(asked.err),
    asked.err.trim(),
  );
  await leftBehind(work);
  work.remove();
}
