// Makes the demonstration session anew: node data-demo/generator/demo.mjs
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { makeDemo } from './makeDemo.mjs';

const home = join(dirname(fileURLToPath(import.meta.url)), '..');
const folder = join(home, 'session');
const { files, truth } = makeDemo();
rmSync(folder, { recursive: true, force: true });
for (const { name, content } of files) {
  mkdirSync(dirname(join(folder, name)), { recursive: true });
  writeFileSync(join(folder, name), content);
}
writeFileSync(join(home, 'truth.json'), truth);
console.log(
  `${files.length} files in ${folder}, ${files.reduce((sum, file) => sum + file.content.length, 0)} bytes`,
);
