import 'reflect-metadata';
import { readFile } from 'node:fs/promises';
import { isPlainObject } from '../common/merge-patch.js';
import { ApiError } from '../common/problems.js';
import { validated } from '../common/validated.js';
import { checkMapping, type SheetMapping } from '#domain/charting/sheet-mapping.js';
import { starterVocabulary } from '#domain/charting/vocabulary.js';
import { SheetMappingInput } from '../features/sheet-mappings/sheet-mappings.dto.js';
import { CommandError } from './run-command.js';

/**
 * A mapping as `/v1/sheet-mappings` takes it; its name and headers may be left out here.
 *
 * @throws CommandError when the file is none
 */
export async function readMapping(path: string): Promise<SheetMapping> {
  const plain = await readObject(path);
  try {
    const input = validated(SheetMappingInput, { name: path.slice(-80), headers: ['any'], ...plain });
    const { columns, constants = {}, answers = [], us = null, order = 'rows' } = input;
    const mapping = { columns, constants, answers, us, order };
    const [problem] = checkMapping(mapping, starterVocabulary());
    if (problem === undefined) return mapping;
    throw new CommandError(`${path}: ${problem.field}: found "${problem.found}", expected ${problem.expected}`);
  } catch (error) {
    if (!(error instanceof ApiError)) throw error;
    const [first] = error.details.errors ?? [];
    throw new CommandError(`${path}: ${first === undefined ? error.message : `${first.field}: ${first.expected}`}`);
  }
}

async function readObject(path: string): Promise<Readonly<Record<string, unknown>>> {
  try {
    const value: unknown = JSON.parse(await readFile(path, 'utf8'));
    if (isPlainObject(value)) return value;
  } catch (error) {
    throw new CommandError(`${path} cannot be read: ${error instanceof Error ? error.message : String(error)}`);
  }
  throw new CommandError(`${path} holds no JSON object`);
}
