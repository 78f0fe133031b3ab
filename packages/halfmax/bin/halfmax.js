#!/usr/bin/env node
import { existsSync } from 'node:fs';

const cli = new URL('../dist/bundle/cli.js', import.meta.url);
if (existsSync(cli)) {
  const { main } = await import(cli.href);
  process.exitCode = await main(process.argv.slice(2));
} else {
  process.stderr.write(
    'halfmax: the package is not built yet: run `npm run build` at the top of the checkout\n',
  );
  process.exitCode = 1;
}
