import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Dealer } from 'zeromq';
import { kernelCommand } from '../../packages/halfmax-notebook/src/fence/index.js';
import { addressOf, type PrivateConnection } from '../../packages/halfmax-notebook/src/kernel/connection.js';
import { markOf, type RunningKernel, startKernel } from '../../packages/halfmax-notebook/src/kernel/index.js';
import {
  missingNames,
  type PatchedModules,
  patchedNames,
  TSLAB_VERSION,
} from '../../packages/halfmax-notebook/src/kernel/patchedNames.js';
import { packRequest, type WireMessage } from '../../packages/halfmax-notebook/src/kernel/wireMessage.js';

// The launcher runs from the build: `npm test` builds before.
const launcher = new URL('../../packages/halfmax-notebook/dist/kernel/launcher.js', import.meta.url).pathname;
const fromTslab = createRequire(createRequire(import.meta.url).resolve('tslab/package.json'));

describe('the patched names of tslab', () => {
  const modules: PatchedModules = {
    jupyter: fromTslab('./dist/jupyter.js'),
    executor: fromTslab('./dist/executor.js'),
    converter: fromTslab('./dist/converter.js'),
    typescript: fromTslab('@tslab/typescript-for-tslab'),
    zeromq: fromTslab('zeromq'),
  };

  it('are all there in the version that is installed', () => {
    expect((fromTslab('./package.json') as { version: string }).version).toBe(TSLAB_VERSION);
    expect(missingNames(modules)).toEqual([]);
  });

  it.each(patchedNames)('are missed when gone: %s %s', (module, path) => {
    const [first, ...rest] = path.split('.') as [string, ...string[]];
    const cut = (object: object, [name, ...further]: string[]): object => {
      if (name === undefined) return {};
      const { [name]: inner, ...others } = object as Record<string, object>;
      return further.length === 0 ? others : { ...others, [name]: cut(inner!, further) };
    };
    const without = rest.length === 0 ? cut(modules[module], [first]) : { [first]: {} };
    expect(missingNames({ ...modules, [module]: without })).toContain(`${module}.${path}`);
  });

  it('stand in the code as the launcher takes them', () => {
    const text = readFileSync(
      join(dirname(fromTslab.resolve('./package.json')), 'dist', 'executor.js'),
      'utf8',
    );
    // What the launcher knows of the code that tslab puts around a cell, and of how it prints a diagnostic.
    expect(text).toContain('"(async function(exports, require) { "');
    expect(text).toContain('"(function(exports, require) { "');
    expect(text).toContain('"\\n})(__tslab__.exports, __tslab__.require)"');
    expect(text).toContain('"%s%d:%d - %s"');
  });
});

describe('a kernel', () => {
  const folder = mkdtempSync(join(tmpdir(), 'halfmax-kernel-test-'));
  let kernel: RunningKernel;
  let place: PrivateConnection;

  beforeAll(async () => {
    kernel = await startKernel(
      {
        seed: 1,
        startedAt: '2025-03-14T00:00:00.000Z',
        given: { others: {} },
        watchThread: true,
        watchFiles: false,
        packagedAddonsOnly: false,
      },
      (connection) => {
        place = connection;
        const places = {
          cwd: folder,
          notebook: join(folder, 'n.ipynb'),
          session: null,
          out: folder,
          connectionFolder: connection.folder,
          connectionFile: connection.file,
          env: markOf(connection),
        };
        const command = kernelCommand('none', places, 4096);
        return {
          ...command,
          args: command.args.map((word) =>
            word.endsWith('launcher.ts') || word.endsWith('launcher.js') ? launcher : word,
          ),
        };
      },
      60_000,
    );
  }, 180_000);

  afterAll(async () => {
    await kernel.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  /** Runs a cell; resolves with all that was heard. */
  const run = (code: string): Promise<WireMessage[]> =>
    new Promise((resolve, reject) => {
      const heard: WireMessage[] = [];
      let isReplied = false;
      let isIdle = false;
      kernel.client
        .request('execute_request', { code, stop_on_error: false }, ({ from, message }) => {
          heard.push(message);
          isReplied ||= from === 'reply';
          isIdle ||= message.content['execution_state'] === 'idle';
          if (isReplied && isIdle) resolve(heard);
        })
        .catch(reject);
    });
  const of = (heard: readonly WireMessage[], type: string): WireMessage['content'][] =>
    heard.filter(({ header }) => header.msg_type === type).map(({ content }) => content);

  it('loses none of 1500 messages of one cell: a socket takes 512, a slow reader loses what is over 1000', async () => {
    const heard = await run(
      `import { display } from 'tslab';\nfor (let i = 0; i < 1500; i++) display.text(String(i));`,
    );
    const shown = of(heard, 'display_data').map(({ data }) =>
      Number((data as Record<string, string>)['text/plain']),
    );
    expect(shown).toEqual(Array.from({ length: 1500 }, (_, i) => i));
  });

  it('joins 10,000 lines into few messages, whole', async () => {
    const streams = of(await run(`for (let i = 0; i < 10_000; i++) console.log(i);`), 'stream');
    expect(streams.map(({ text }) => text).join('')).toBe(
      Array.from({ length: 10_000 }, (_, i) => `${i}\n`).join(''),
    );
    expect(streams.length).toBeLessThan(20);
  });

  it('finds names of earlier cells in shorthands, unless the cell has its own', async () => {
    await run(`import { basename } from 'node:path';\nlet nm = 656.3;\nlet width = 3;\nlet order = 4;`);
    const printed = async (code: string): Promise<string> =>
      of(await run(code), 'stream')
        .map(({ text }) => text)
        .join('');
    expect(
      await printed(`console.log(JSON.stringify({ nm, deep: [{ width }] }), { basename }.basename('a/b'));`),
    ).toBe('{"nm":656.3,"deep":[{"width":3}]} b\n');
    expect(
      await printed(
        `const own = (nm: number): object => ({ nm, width });\nconst order = 5;\nconsole.log(own(1), { order });`,
      ),
    ).toBe('{ nm: 1, width: 3 } { order: 5 }\n');
    await run(
      `let rest = {};\n({ nm, width = nm, ...rest } = { nm: 500.7, a: 1 } as { nm: number; width?: number });`,
    );
    expect(await printed(`console.log(nm, width, rest, { nm, width });`)).toBe(
      '500.7 500.7 { a: 1 } { nm: 500.7, width: 500.7 }\n',
    );
    const [error] = of(
      await run(`const o = {\n  nm,\n  f: () => { throw new RangeError('here'); },\n};\no.f();`),
      'error',
    );
    expect((error!['traceback'] as string[]).join(' ')).toContain('line 3:20');
  });

  it('completes and explains names between cells, and goes on', async () => {
    const ask = (type: string, content: object): Promise<WireMessage['content']> =>
      new Promise((resolve, reject) => {
        kernel.client
          .request(type, content, ({ from, message }) => {
            if (from === 'reply') resolve(message.content);
          })
          .catch(reject);
      });
    await run(`let lineWidth = 3;\nconst lineNames = ['a'];`);
    const complete = { code: 'const twice = 2 * lineW', cursor_pos: 23 };
    expect(await ask('complete_request', complete)).toMatchObject({ status: 'ok', matches: ['lineWidth'] });
    const inspect = { code: 'const more = lineNames;', cursor_pos: 15, detail_level: 0 };
    const { data } = await ask('inspect_request', inspect);
    expect(JSON.stringify(data)).toContain('string[]');
    // The same cell three times, then one that declares no name.
    const again = Array.from({ length: 3 }, () => 'const twice = 2 * lineWidth;');
    for (const code of [...again, 'lineWidth += 1;'])
      expect(of(await run(code), 'execute_reply')[0]).toMatchObject({ status: 'ok' });
    const [{ text } = { text: '' }] = of(await run('console.log(lineWidth, twice);'), 'stream');
    expect(text).toBe('4 6\n');
  });

  it('gives an error its name, message and the line of the TypeScript', async () => {
    const heard = await run(
      `interface Long {\n  a: string;\n}\n// gone in JavaScript\nthrow new TypeError('dark');`,
    );
    const [error] = of(heard, 'error');
    expect(error).toMatchObject({ ename: 'TypeError', evalue: 'dark' });
    expect((error!['traceback'] as string[]).join('\n')).toMatch(
      /^TypeError: dark\n {4}at cell \d+, line 5:7$/,
    );
    expect(of(heard, 'execute_reply')[0]).toMatchObject({
      status: 'error',
      ename: 'TypeError',
      evalue: 'dark',
    });
  });

  it('gives what the compiler refuses as an error too', async () => {
    const [error] = of(await run(`\n\nconst nm: string = 1;`), 'error');
    expect(error).toMatchObject({ ename: 'TypeScriptError' });
    expect(error!['evalue']).toBe(`line 3: Type 'number' is not assignable to type 'string'.`);
  });

  it('runs the next cell at once after a failed one', async () => {
    await run(`throw new Error('first');`);
    expect(of(await run(`console.log('second');`), 'stream')[0]).toMatchObject({ text: 'second\n' });
  });

  it('has a clock that stands still, and its zone is UTC', async () => {
    const [stream] = of(
      await run(
        `console.log(new Date().toISOString(), Date.now() - Date.parse('2025-03-14'), new Date().getTimezoneOffset(), Date(), performance.now());`,
      ),
      'stream',
    );
    expect(stream!['text']).toBe(
      '2025-03-14T00:00:00.000Z 0 0 Fri Mar 14 2025 00:00:00 GMT+0000 (Coordinated Universal Time) 0\n',
    );
  });

  it('does nothing for a message with another signature', async () => {
    const stranger = new Dealer({ linger: 0 });
    stranger.connect(addressOf(place.connection, place.connection.shell_port));
    const { frames } = packRequest('0'.repeat(64), 'stranger', 'execute_request', {
      code: `(globalThis as any).intruder = 1;`,
    });
    await stranger.send(frames);
    await new Promise((resolve) => setTimeout(resolve, 300));
    stranger.close();
    const [stream] = of(await run(`console.log('intruder' in globalThis);`), 'stream');
    expect(stream!['text']).toBe('false\n');
  });

  it('ends although a timer runs, and leaves no file', async () => {
    await run(`setInterval(() => {}, 10); void 0;`);
    await kernel.stop();
    expect(await kernel.ended).toMatchObject({ code: 0 });
    expect(readdirSync(tmpdir())).not.toContain(place.folder.split('/').at(-1));
  });
});
