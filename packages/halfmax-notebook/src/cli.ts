import { readFileSync } from 'node:fs';
import { BadInputError, describeProblem } from 'halfmax';
import { processTerminal, type Terminal } from './commands/terminal.js';

/**
 * The command line.
 *
 * @param args - words after the command's name
 * @param terminal - where to write
 * @returns exit code: 0 done, 2 the command or its input is wrong, 3 different, 4 a notebook failed, 1 a fault of
 * the package
 */
export async function main(args: readonly string[], terminal: Terminal = processTerminal()): Promise<number> {
  const [command, ...rest] = args;
  // What follows `--` is for another program.
  const own = rest.includes('--') ? rest.slice(0, rest.indexOf('--')) : rest;
  try {
    if (own.includes('--help') || own.includes('-h')) {
      terminal.out(await usage());
      return 0;
    }
    switch (command) {
      case 'rerun':
        return await (await import('./commands/rerun.js')).rerunCommand(rest, terminal);
      case 'kernel':
        return (await import('./commands/kernel.js')).kernelCommand(rest, terminal);
      case 'compare':
        return (await import('./commands/compare.js')).compareCommand(rest, terminal);
      case 'report':
        return await (await import('./commands/report.js')).reportCommand(rest, terminal);
      case 'new':
        return await (await import('./commands/new.js')).newCommand(rest, terminal);
      case 'lab':
        return await (await import('./commands/lab.js')).labCommand(rest, terminal);
      case '--version':
        terminal.out(`${packageVersion()}\n`);
        return 0;
      case 'help':
      case '--help':
      case '-h':
        terminal.out(await usage());
        return 0;
      default: {
        const what = command === undefined ? 'no command given' : `"${command}" is not a command`;
        terminal.error(`halfmax-notebook: ${what}; see halfmax-notebook --help\n`);
        return 2;
      }
    }
  } catch (fault) {
    if (fault instanceof BadInputError) {
      for (const problem of fault.problems) terminal.error(`${describeProblem(problem)}\n`);
      return 2;
    }
    const what = fault instanceof Error ? fault.message : String(fault);
    terminal.error(
      `halfmax-notebook: a fault of the program, not of the input: ${what.replace(/\s+/g, ' ')}\n`,
    );
    if (process.env['HALFMAX_TRACE'] === '1' && fault instanceof Error) terminal.error(`${fault.stack}\n`);
    return 1;
  }
}

async function usage(): Promise<string> {
  return (await import('./commands/usage.js')).usageText;
}

function packageVersion(): string {
  const text = readFileSync(new URL('../package.json', import.meta.url), 'utf8');
  return (JSON.parse(text) as { version: string }).version;
}
