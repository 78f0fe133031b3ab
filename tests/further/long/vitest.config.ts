import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import config, { only } from '../../../vitest.config.js';

/** The tests marked `long` alone. */
export default defineConfig({
  ...config,
  root: fileURLToPath(new URL('../../../', import.meta.url)),
  test: { ...config.test, ...only('long') },
});
