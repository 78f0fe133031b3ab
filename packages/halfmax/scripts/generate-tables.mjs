// Writes src/reference/*.generated.ts and src/session/*.generated.ts from shared/: the published package has no other
// way to carry them. With --check nothing is written; stale files are named, exit 1.
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Ajv } from 'ajv';
import standalone from 'ajv/dist/standalone/index.js';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..', '..');
const shared = join(root, 'shared');
const source = join(root, 'packages', 'halfmax', 'src');
const tables = [
  ['lamp-lines', 'lampLines', 'LampLineTable'],
  ['emission-lines', 'emissionLines', 'EmissionLineTable'],
  ['filter-angle', 'filterAngle', 'FilterAngleTable'],
  ['photometry', 'photometry', 'PhotometryTable'],
  ['atmosphere', 'atmosphere', 'AtmosphereTable'],
  ['light-sources', 'lightSources', 'LightSourceTable'],
  ['night-sky', 'nightSky', 'NightSkyTable'],
  ['colour-camera', 'colourCamera', 'ColourCameraTable'],
];

/** TypeScript text of a JSON value; keys bare where they may be. */
function literal(value, indent = '') {
  if (value === null || typeof value !== 'object') return JSON.stringify(value);
  const inner = `${indent}  `;
  const parts = Array.isArray(value)
    ? value.map((item) => literal(item, inner))
    : Object.entries(value).map(([key, item]) => {
        const name = /^[A-Za-z_]\w*$/.test(key) ? key : JSON.stringify(key);
        return `${name}: ${literal(item, inner)}`;
      });
  const [open, close] = Array.isArray(value) ? '[]' : '{}';
  if (parts.length === 0) return open + close;
  const flat = `${open} ${parts.join(', ')} ${close}`;
  if (flat.length <= 110 && !flat.includes('\n')) return flat;
  return `${open}\n${parts.map((part) => `${inner}${part},\n`).join('')}${indent}${close}`;
}

const head = (file) => `// Made from shared/${file} by scripts/generate-tables.mjs; do not edit.\n`;
const readShared = (file) => JSON.parse(readFileSync(join(shared, file), 'utf8'));

/** Every generated file with its text, in a fixed order. */
function generated() {
  const files = tables.map(([file, name, type]) => ({
    path: join(source, 'reference', `${name}.generated.ts`),
    text: `${head(`${file}.json`)}import type { ${type} } from './types.js';

export const ${name}Table: ${type} = ${literal(readShared(`${file}.json`))};
`,
  }));
  files.push({
    path: join(source, 'session', 'sessionSchema.generated.ts'),
    text: `${head('session.schema.json')}export const sessionSchema: Readonly<Record<string, unknown>> = ${literal(readShared('session.schema.json'))};
`,
  });
  files.push({ path: join(source, 'session', 'validateSession.generated.ts'), text: validator() });
  return files;
}

/** The check of a manifest as plain code: making it from the schema takes longer than a session takes to be read. */
function validator() {
  const ajv = new Ajv({
    allErrors: true,
    verbose: true,
    strictTypes: false,
    strictTuples: false,
    code: { source: true, esm: true, lines: true },
  });
  const schema = readShared('session.schema.json');
  const code = standalone
    .default(ajv, ajv.compile(schema))
    .replace(/^"use strict";\n/, '')
    .replace(/^export const validate = (\w+);\nexport default \w+;\n/m, (_, name) => {
      return `export const validateSession: SessionValidator = ${name};\n`;
    })
    .replace(` = ${JSON.stringify(schema)};`, ' = sessionSchema;')
    .replace(/require\("ajv\/dist\/runtime\/ucs2length"\)\.default/, '(text) => Array.from(text).length');
  if (/require\(/.test(code) || !code.includes(' = sessionSchema;'))
    throw new Error('the code that ajv makes has changed: look at what validator() replaces');
  const types =
    "import type { SessionValidator } from './schemaError.js';\nimport { sessionSchema } from './sessionSchema.generated.js';\n";
  return `// @ts-nocheck\n${head('session.schema.json')}${types}\n${code.trim()}\n`;
}

const check = process.argv.includes('--check');
let stale = 0;
for (const { path, text } of generated()) {
  if (existsSync(path) && readFileSync(path, 'utf8') === text) continue;
  if (check) {
    stale++;
    process.stderr.write(`${relative(root, path)} is stale: run npm run generate\n`);
  } else {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, text);
    process.stdout.write(`${relative(root, path)} written\n`);
  }
}
if (stale > 0) process.exitCode = 1;
