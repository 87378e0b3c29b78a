import { SettingsError } from '../config/settings.js';
import { FolderInUse } from '../database/data-folder.js';

/** Runs a command; what a person can mend is told in a sentence, and only the unforeseen with its stack. */
export async function runCommand(command: () => Promise<void>): Promise<void> {
  try {
    await command();
  } catch (error) {
    process.stderr.write(`${isForeseen(error) ? error.message : describe(error)}\n`);
    process.exitCode = 1;
  }
}

/** Something that the person at the terminal can mend. */
export class CommandError extends Error {
  override readonly name = 'CommandError';
}

function isForeseen(error: unknown): error is Error {
  return [SettingsError, CommandError, FolderInUse].some((kind) => error instanceof kind);
}

function describe(error: unknown): string {
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}
