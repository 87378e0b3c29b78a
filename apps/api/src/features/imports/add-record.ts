import { plainToInstance } from 'class-transformer';
import { validateSync } from 'class-validator';
import { fieldProblems } from '../../common/field-problems.js';
import type { ImportPlan } from './import-plan.js';
import type { ProblemList } from './problem-list.js';
import type { ImportRow } from './read-rows.js';
import { RECORDS } from './records.dto.js';

/** Checks a record other than a play by its kind, and hands it to the plan. */
export function addRecord(plan: ImportPlan, { row, record }: ImportRow, kind: unknown, problems: ProblemList): void {
  const add = <Dto extends object>(type: new () => Dto, use: (row: number, dto: Dto) => void): void => {
    const { record: _, ...properties } = record;
    const dto = plainToInstance(type, properties);
    const wrong = validateSync(dto, { whitelist: true, forbidNonWhitelisted: true });
    if (wrong.length === 0) return use(row, dto);
    for (const { field, found, expected } of fieldProblems(wrong)) problems.add(row, field, found, expected);
  };
  switch (kind) {
    case 'player':
      return add(RECORDS.player, (at, dto) => plan.addPlayer(at, dto));
    case 'event':
      return add(RECORDS.event, (at, dto) => plan.addEvent(at, dto));
    case 'entrant':
      return add(RECORDS.entrant, (at, dto) => plan.addEntrant(at, dto));
    case 'match':
      return add(RECORDS.match, (at, dto) => plan.addMatch(at, dto));
    case 'game':
      return add(RECORDS.game, (at, dto) => plan.addGame(at, dto));
    case 'chart':
      return add(RECORDS.chart, (at, dto) => plan.addChart(at, dto));
    case 'ownCall':
      return add(RECORDS.ownCall, (at, dto) => plan.addOwnCall(at, dto));
    case 'menuCall':
      return add(RECORDS.menuCall, (at, dto) => plan.addMenuCall(at, dto));
    default:
      problems.add(row, 'record', kind, `one of: play, ${Object.keys(RECORDS).join(', ')}`);
  }
}
