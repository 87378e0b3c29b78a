import { parseArgs, type ParseArgsConfig } from 'node:util';
import { SettingsError } from '../config/settings.js';
import { FolderInUse } from '../database/data-folder.js';

type AnyOptions = NonNullable<ParseArgsConfig['options']>;

/** How a command is called. */
export interface CommandLine<Options extends AnyOptions> {
  /** What --help prints, and what a call that is not understood is answered with. */
  readonly usage: string;
  readonly options: Options;
  /** Whether words without a name may follow. */
  readonly takesWords?: boolean;
}

/** What was given to a command. */
export type Given<Options extends AnyOptions> = ReturnType<
  typeof parseArgs<{ options: Options; allowPositionals: boolean }>
>;

/** Runs a command; what a person can mend is told in a sentence, and only the unforeseen with its stack. */
export async function runCommand<const Options extends AnyOptions>(
  line: CommandLine<Options>,
  command: (given: Given<Options>) => Promise<void>,
): Promise<void> {
  try {
    if (process.argv.includes('--help')) process.stdout.write(`${line.usage}\n`);
    else await command(given(line));
  } catch (error) {
    process.stderr.write(`${isForeseen(error) ? error.message : describe(error)}\n`);
    process.exitCode = 1;
  }
}

/** Something that the person at the terminal can mend. */
export class CommandError extends Error {
  override readonly name = 'CommandError';
}

function given<const Options extends AnyOptions>({
  usage,
  options,
  takesWords = false,
}: CommandLine<Options>): Given<Options> {
  try {
    return parseArgs({ options, allowPositionals: takesWords });
  } catch (error) {
    throw new CommandError(`${error instanceof Error ? error.message : String(error)}\n${usage}`);
  }
}

function isForeseen(error: unknown): error is Error {
  return [SettingsError, CommandError, FolderInUse].some((kind) => error instanceof kind);
}

function describe(error: unknown): string {
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}
