import { measureCommand } from './commands/measure.js';
import { type Terminal, usageText } from './commands/terminal.js';
import { packageVersion } from './commands/version.js';
import { BadInputError, describeProblem } from './errors.js';

const COMMANDS: readonly string[] = ['measure', 'look', 'inspect', 'compare', 'halo'];

/**
 * The command line.
 *
 * @param args - words after the command's name
 * @param terminal - where to write
 * @returns exit code: 0 done, 2 the command or its input is wrong, 1 a fault of the package
 */
export async function main(args: readonly string[], terminal: Terminal = processTerminal()): Promise<number> {
  const [command, ...rest] = args;
  const helps = rest.includes('--help') || rest.includes('-h');
  try {
    if (helps && command !== undefined && COMMANDS.includes(command)) {
      terminal.out(usageText);
      return 0;
    }
    switch (command) {
      case 'measure':
        return await measureCommand(rest, terminal);
      case 'look':
        return (await import('./commands/look.js')).lookCommand(rest, terminal);
      case 'inspect':
        return (await import('./commands/inspect.js')).inspectCommand(rest, terminal);
      case 'compare':
        return await (await import('./commands/compare.js')).compareCommand(rest, terminal);
      case 'halo':
        return (await import('./commands/halo.js')).haloCommand(rest, terminal);
      case '--version':
        terminal.out(`${packageVersion()}\n`);
        return 0;
      case 'help':
      case '--help':
      case '-h':
        terminal.out(usageText);
        return 0;
      default: {
        const what = command === undefined ? 'no command given' : `"${command}" is not a command`;
        terminal.error(`halfmax: ${what}; see halfmax --help\n`);
        return 2;
      }
    }
  } catch (fault) {
    if (fault instanceof BadInputError) {
      for (const problem of fault.problems) terminal.error(`${describeProblem(problem)}\n`);
      return 2;
    }
    const what = fault instanceof Error ? fault.message : String(fault);
    terminal.error(`halfmax: a fault of the program, not of the input: ${what.replace(/\s+/g, ' ')}\n`);
    if (process.env['HALFMAX_TRACE'] === '1' && fault instanceof Error) terminal.error(`${fault.stack}\n`);
    return 1;
  }
}

function processTerminal(): Terminal {
  return {
    out: (text) => process.stdout.write(text),
    error: (text) => process.stderr.write(text),
    showsProgress: process.stderr.isTTY === true,
  };
}
