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
    const properties = Object.fromEntries(Object.entries(record).filter(([name]) => name !== 'record'));
    const dto = plainToInstance(type, properties);
    const wrong = validateSync(dto, { whitelist: true, forbidNonWhitelisted: true });
    if (wrong.length === 0) {
      use(row, dto);
      return;
    }
    for (const { field, found, expected } of fieldProblems(wrong, 'property'))
      problems.add(row, field, found, expected);
  };
  switch (kind) {
    case 'player': {
      add(RECORDS.player, (at, dto) => {
        plan.addPlayer(at, dto);
      });
      return;
    }
    case 'event': {
      add(RECORDS.event, (at, dto) => {
        plan.addEvent(at, dto);
      });
      return;
    }
    case 'entrant': {
      add(RECORDS.entrant, (at, dto) => {
        plan.addEntrant(at, dto);
      });
      return;
    }
    case 'match': {
      add(RECORDS.match, (at, dto) => {
        plan.addMatch(at, dto);
      });
      return;
    }
    case 'game': {
      add(RECORDS.game, (at, dto) => {
        plan.addGame(at, dto);
      });
      return;
    }
    case 'chart': {
      add(RECORDS.chart, (at, dto) => {
        plan.addChart(at, dto);
      });
      return;
    }
    case 'ownCall': {
      add(RECORDS.ownCall, (at, dto) => {
        plan.addOwnCall(at, dto);
      });
      return;
    }
    case 'menuCall': {
      add(RECORDS.menuCall, (at, dto) => {
        plan.addMenuCall(at, dto);
      });
      return;
    }
    default:
      problems.add(row, 'record', kind, `one of: play, ${Object.keys(RECORDS).join(', ')}`);
  }
}
