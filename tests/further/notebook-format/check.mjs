// Holds our reading and writing of notebooks against Python's nbformat: the same files are valid, and the bytes are the same.
// Needs Python with nbformat. Run: npm run build && node tests/further/notebook-format/check.mjs [PYTHON]
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { isDeepStrictEqual } from 'node:util';
import { formatNotebook, readNotebook, validateNotebook } from 'halfmax-notebook/notebook';
import { alterations, base } from './alterations.mjs';

const python = process.argv[2] ?? '/usr/bin/python3';
const here = dirname(fileURLToPath(import.meta.url));
const work = mkdtempSync(join(tmpdir(), 'halfmax-format-'));
let passed = 0;
let failed = 0;

function check(name, good, detail = '') {
  if (good) passed++;
  else failed++;
  if (!good || detail !== '')
    console.log(`${good ? 'pass' : 'FAIL'}  ${name}${detail === '' ? '' : `: ${detail}`}`);
}

function runPython(...args) {
  const env = { ...process.env, PYDEVD_DISABLE_FILE_VALIDATION: '1' };
  const { status, stdout, stderr } = spawnSync(python, [join(here, 'peer.py'), ...args], {
    encoding: 'utf8',
    env,
  });
  if (status !== 0) throw new Error(stderr);
  return JSON.parse(stdout);
}

if (spawnSync(python, ['-c', 'import nbformat']).status !== 0) {
  console.log(`skipped: ${python} has no nbformat`);
  console.log('0 passed, 0 failed');
  process.exit(0);
}

try {
  mkdirSync(join(work, 'in'));
  const cases = [['unchanged', base], ...alterations(base)];
  cases.forEach(([, notebook], index) => {
    writeFileSync(join(work, 'in', `${index}.json`), JSON.stringify(notebook));
  });
  const verdicts = runPython('validate', join(work, 'in'), String(cases.length));
  let valid = 0;
  cases.forEach(([name, notebook], index) => {
    // What the schema cannot say is ours alone.
    const problems = validateNotebook(notebook).filter(({ what }) => !what.startsWith('has the id of cell'));
    const ours = problems.length === 0;
    if (ours) valid++;
    check(
      name,
      ours === verdicts[index],
      ours === verdicts[index] ? '' : `ours ${ours}, nbformat ${verdicts[index]}`,
    );
  });
  console.log(`${cases.length} notebooks judged alike or not: ${valid} valid, ${cases.length - valid} not`);
  check('both kinds occur', valid > 20 && cases.length - valid > 100);

  const text = formatNotebook(readNotebook(JSON.stringify(base), 'base.ipynb'));
  writeFileSync(join(work, 'ours.ipynb'), text);
  runPython('rewrite', join(work, 'ours.ipynb'), join(work, 'theirs.ipynb'));
  const theirs = readFileSync(join(work, 'theirs.ipynb'), 'utf8');
  check('read as the same notebook', isDeepStrictEqual(JSON.parse(theirs), JSON.parse(text)));
  // nbformat gives each number of a list a line of its own; ours stand on one.
  const joined = theirs.replace(
    /\[\s+((?:-?[\d.]+|null|true|false)(?:,\s+(?:-?[\d.]+|null|true|false))*)\s+\]/g,
    (_, list) => `[${list.replace(/,\s+/g, ', ')}]`,
  );
  check('written to the same bytes, but for lists of numbers', joined === text && joined !== theirs);
} finally {
  rmSync(work, { recursive: true, force: true });
}
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
