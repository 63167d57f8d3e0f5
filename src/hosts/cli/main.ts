import { Command, CommanderError } from 'commander';
import { VERSION } from '../../functions/version.ts';
import type { CellOptions } from './cell.ts';
import { exitStatus, Refusal } from './exit.ts';
import type { ListOptions } from './list.ts';

/**
 * The command tree. Each command returns the exit status; what it prints goes through the two streams. A command's own
 * modules are loaded when it is called, so that none waits for the others'.
 *
 * @param hosts the folder of the hosts' sources, from which the sheet is started
 */
export async function run(args: readonly string[], hosts = new URL('../', import.meta.url)): Promise<number> {
  let status: number = exitStatus.ok;
  const program = new Command('narrows')
    .description('Spreadsheet functions for evacuation, recovery and charging through narrow hoses, ports and cores.')
    .version(VERSION, '-V, --version', 'print the version')
    .exitOverride()
    .showHelpAfterError('(narrows --help prints the commands)');

  program
    .command('cell')
    .description('work out one formula, or one a line from standard input')
    .argument('[formula]', 'e.g. \'=NARROWS.TUBE.BORE("3/8 in")\'')
    .option('-b, --book <file>', 'a workbook whose cells and names the formula sees')
    .option('-s, --sheet <name>', 'the sheet that plain references such as A1 mean (default: the first)')
    .option('-j, --json', 'print JSON, numbers in full')
    .option('-l, --lines', 'read one formula a line, print one JSON line for each')
    .action(async (formula: string | undefined, options: CellOptions) => {
      const { cellCommand } = await import('./cell.ts');
      status = await cellCommand(formula, options);
    });

  program
    .command('list')
    .description('print the functions')
    .option('-j, --json', 'print JSON')
    .action(async (options: ListOptions) => {
      const { listCommand } = await import('./list.ts');
      status = await listCommand(options);
    });

  if (!['cell', 'list', 'open'].includes(args[0] ?? '')) {
    const { addFillCommand } = await import('./fill.ts');
    addFillCommand(program, (result) => {
      status = result;
    });
  }

  program
    .command('open')
    .description('start the embedded sheet')
    .argument('[book]', 'a workbook to open')
    .action(async (book: string | undefined) => {
      const { openCommand } = await import('./open.ts');
      status = await openCommand(book, hosts);
    });

  try {
    await program.parseAsync([...args], { from: 'user' });
    return status;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? exitStatus.ok : exitStatus.badUse;
    if (error instanceof Refusal) {
      process.stderr.write(`narrows: ${error.message}\n`);
      return exitStatus.badUse;
    }
    throw error;
  }
}
