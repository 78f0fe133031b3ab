// Packs the package, installs the tarball alone into empty folders as a user would, and uses it there.
// Needs the npm registry for the package's dependencies and for TypeScript 5.0.
// Run: npm run build && node tests/further/consumers/check.mjs
import { spawnSync } from 'node:child_process';
import {
  copyFileSync,
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { entriesImported, packageEntries, packageFolder } from '../../consumers/packageEntries.mjs';
import { compileConsumer } from '../../consumers/typescript/compile.mjs';

const consumers = join(dirname(fileURLToPath(import.meta.url)), '..', '..', 'consumers');
const demo = join(packageFolder, '..', '..', 'data-demo', 'session');
const INSTALLED_LIMIT = 10e6;
const work = mkdtempSync(join(tmpdir(), 'halfmax-consumers-'));
let passed = 0;
let failed = 0;

function check(name, good, detail = '') {
  if (good) passed++;
  else failed++;
  console.log(`${good ? 'pass' : 'FAIL'}  ${name}${detail === '' ? '' : `: ${detail}`}`);
}

/** Runs a command; npm's own settings of an outer `npm run` do not reach it. */
function run(command, args, cwd) {
  const env = Object.fromEntries(Object.entries(process.env).filter(([key]) => !/^npm_/i.test(key)));
  const shell = process.platform === 'win32';
  const { status, stdout, stderr } = spawnSync(command, args, { cwd, env, encoding: 'utf8', shell });
  return { status, stdout, stderr, last: `${stdout}${stderr}`.trim().split('\n').slice(-12).join('\n') };
}

/** An empty folder with the given things installed; one more try where the network fails. */
function install(name, things) {
  const folder = join(work, name);
  mkdirSync(folder);
  writeFileSync(join(folder, 'package.json'), '{ "private": true, "type": "module" }\n');
  const args = ['install', '--prefer-offline', '--no-audit', '--no-fund', '--ignore-scripts', ...things];
  let done = run('npm', args, folder);
  if (done.status !== 0) done = run('npm', args, folder);
  check(`npm install in an empty folder (${name})`, done.status === 0, done.status === 0 ? '' : done.last);
  return folder;
}

/** Bytes of all files in a folder, without its links. */
function bytesIn(folder) {
  return readdirSync(folder, { recursive: true })
    .map((path) => lstatSync(join(folder, path)))
    .reduce((sum, item) => (item.isFile() ? sum + item.size : sum), 0);
}

const megabytes = (bytes) => `${(bytes / 1e6).toFixed(2)} MB`;

try {
  const packed = run('npm', ['pack', '--pack-destination', work], packageFolder);
  const tarball = readdirSync(work).find((name) => name.endsWith('.tgz'));
  check('npm pack', packed.status === 0 && tarball !== undefined, packed.status === 0 ? '' : packed.last);
  const file = join(work, tarball);
  console.log(`tarball ${megabytes(statSync(file).size)}`);

  const user = install('user', [file]);
  const size = bytesIn(join(user, 'node_modules'));
  check('installed with all dependencies below 10 MB', size < INSTALLED_LIMIT, megabytes(size));
  for (const name of readdirSync(join(user, 'node_modules'))) {
    if (!name.startsWith('.'))
      console.log(`  ${name} ${megabytes(bytesIn(join(user, 'node_modules', name)))}`);
  }

  const entries = packageEntries(join(user, 'node_modules', 'halfmax'));
  const wanted = entries.map(({ entry }) => entry).sort();
  const source = join(consumers, 'esm', 'everyEntry.mjs');
  const imported = entriesImported(readFileSync(source, 'utf8')).sort();
  check('the program imports every entry', imported.join() === wanted.join(), imported.join(' '));
  copyFileSync(source, join(user, 'everyEntry.mjs'));
  const modules = run(process.execPath, ['everyEntry.mjs'], user);
  check('every entry loads as an ES module', modules.status === 0, modules.status === 0 ? '' : modules.last);
  const names = modules.status === 0 ? JSON.parse(modules.stdout).names : {};
  for (const entry of wanted)
    check(`${entry} offers names`, names[entry]?.length > 0, `${names[entry]?.length}`);
  const offered = readFileSync(join(consumers, '..', 'public-names.txt'), 'utf8')
    .trim()
    .split('\n')
    .filter((line) => !line.includes(' type '));
  const found = wanted.flatMap((entry) => (names[entry] ?? []).map((name) => `${entry} ${name}`));
  check('the names are those written down', found.sort().join() === offered.sort().join(), `${found.length}`);
  const inside = run(process.execPath, ['-e', "import('halfmax/dist/index.js')"], user);
  check('nothing beside the entries can be imported', /ERR_PACKAGE_PATH_NOT_EXPORTED/.test(inside.stderr));

  const version = run('npx', ['--no-install', 'halfmax', '--version'], user);
  const { version: stated } = JSON.parse(readFileSync(join(packageFolder, 'package.json'), 'utf8'));
  check('npx halfmax --version', version.stdout.trim() === stated, version.stdout.trim());
  const measured = run('npx', ['--no-install', 'halfmax', 'measure', demo, '--out', 'result'], user);
  check(
    'npx halfmax measure on the demonstration session',
    measured.status === 0,
    measured.status ? measured.last : '',
  );
  const result = join(user, 'result', 'measurement.json');
  const bands = existsSync(result)
    ? JSON.parse(readFileSync(result, 'utf8')).filters.flatMap((filter) => filter.bands).length
    : 0;
  const truth = JSON.parse(readFileSync(join(demo, '..', 'truth.json'), 'utf8'));
  const simulated = truth.filters.flatMap((filter) => filter.bands).length;
  check(
    'measurement.json holds the bands that were simulated',
    bands === simulated,
    `${bands} of ${simulated}`,
  );
  const refused = run('npx', ['--no-install', 'halfmax', 'measure', 'nowhere', '--out', 'nothing'], user);
  check(
    'a session that is not there ends with 2',
    refused.status === 2 && !existsSync(join(user, 'nothing')),
  );

  const old = install('typescript-5.0', [file, 'typescript@5.0.4']);
  const compiler = join(old, 'node_modules', 'typescript', 'bin', 'tsc');
  const told = run(process.execPath, [compiler, '--version'], old).stdout.trim();
  check('the older compiler', told === 'Version 5.0.4', told);
  const typed = entriesImported(readFileSync(join(consumers, 'typescript', 'everyEntry.ts'), 'utf8')).sort();
  check('the typed program imports every entry', typed.join() === wanted.join());
  for (const resolution of ['node16', 'node10']) {
    const { status, output } = compileConsumer(old, compiler, resolution);
    check(`TypeScript 5.0, strict, ${resolution}`, status === 0 && output === '', output.trim());
  }
} finally {
  rmSync(work, { recursive: true, force: true });
}
console.log(`${passed} passed, ${failed} failed`);
if (failed > 0 || passed === 0) process.exitCode = 1;
