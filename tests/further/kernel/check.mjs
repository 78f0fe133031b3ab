// Runs notebooks that fail, and notebooks that attack, and looks at what they came to and what they left behind.
// Run: npm run build && node tests/further/kernel/check.mjs [faults|fences|output]
import { summary } from './bench.mjs';
import { faults } from './faults.mjs';
import { fences } from './fences.mjs';
import { output } from './output.mjs';

const wanted = process.argv[2];
const parts = { output, faults, fences };
for (const [name, part] of Object.entries(parts)) {
  if (wanted !== undefined && wanted !== name) continue;
  const table = await part();
  if (table.length > 0) console.log(table.map((row) => Object.values(row).join(' | ')).join('\n'));
}
process.exitCode = summary();
