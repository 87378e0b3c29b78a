import { gatherPlays, type PlayColumns } from '#domain/charting/play-columns.js';
import { starterVocabulary } from '#domain/charting/vocabulary.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '#domain/tendencies/classify-plays.js';
import { FIELD_MODEL_FIELDS } from '#domain/tendencies/field-model-fields.js';
import { fieldModel, type FieldModel } from '#domain/tendencies/field-model.js';
import { DIMENSION_NAMES } from '#domain/tendencies/dimension-names.js';
import { readDimension } from '#domain/tendencies/dimensions.js';
import { profile } from '#domain/tendencies/profile.js';
import type { DimensionCodes } from '#domain/tendencies/dimension-codes.js';
import type { TendencyPlays } from '#domain/tendencies/tendency-plays.js';
import { leads } from '#domain/tendencies/tells/leads.js';
import type { TellsResult } from '#domain/tendencies/tells/tell-shape.js';
import { tells } from '#domain/tendencies/tells/tells.js';
import { PLAY_FIELDS } from '#domain/charting/play-fields.js';
import { inventedCharts } from './support/invented-plays.js';
import { retainedBytes } from './support/memory.js';
import { median } from './support/timing.js';

const VOCABULARY = starterVocabulary();
const SEED = 31;
const SIDE = 'offense';
/** A player with 5,000 snaps, half of every game's plays. */
const OWN_GAMES = 80;
const PLAYS_A_GAME = 125;
/** One million plays. */
const FIELD_GAMES = 8_000;
const FIELD_PLAYERS = 900;
const ROUNDS = 15;

const MOST_RATIO = 5;
const MOST_FIELD_MS = 1_000;
const MOST_BYTES = 64;

/**
 * What the domain takes by itself: no database, no HTTP. A full profile (every share with its posterior) and the search
 * for tells with its leads over 5,000 snaps, against a plain loop over the same typed arrays that fills as many count
 * tables; and one million plays as the field that a profile is held against.
 */
export function benchDomain(): Promise<boolean> {
  const charts = inventedCharts(FIELD_GAMES, PLAYS_A_GAME, SEED);
  const { model, met } = benchField(charts);
  return Promise.resolve(benchQuestions(charts.slice(0, OWN_GAMES), model) && met);
}

function benchField(charts: readonly PlayColumns[]): { readonly model: FieldModel; readonly met: boolean } {
  const build = (): FieldModel => {
    const plays = gatherPlays(
      charts.map((chart) => ({ plays: chart, offense: 'both' })),
      FIELD_MODEL_FIELDS[SIDE],
      (term) => term,
    );
    return fieldModel({
      facts: classifyPlays(plays, VOCABULARY, DEFAULT_FOOTBALL_SETTINGS),
      side: SIDE,
      vocabulary: VOCABULARY,
      playerOf: plays.chartIndex.map((chart, play) => (2 * chart + (plays.offenseIsHome[play] ?? 0)) % FIELD_PLAYERS),
      players: FIELD_PLAYERS,
    });
  };
  const times: number[] = [];
  const processorTimes: number[] = [];
  for (let round = 0; round < 7; round += 1) {
    const from = process.cpuUsage();
    times.push(millisecondsOf(build));
    const { user, system } = process.cpuUsage(from);
    processorTimes.push((user + system) / 1000);
  }
  const before = retainedBytes();
  const model = build();
  const bytes = (retainedBytes() - before) / model.facts.plays.count;
  const warming = millisecondsOf(() => {
    model.warm();
  });
  const warm = (retainedBytes() - before) / model.facts.plays.count;
  // By the clock it took two to four times as long when other programs wanted the same two cores; the processor's own time,
  // the collector's threads included, is what an idle machine needs at most.
  const ms = median(processorTimes);
  console.log(
    `field of ${model.facts.plays.count} plays: built in ${ms.toFixed(0)} ms of processor time, median of ${times.length} ` +
      `(${Math.min(...processorTimes).toFixed(0)} to ${Math.max(...processorTimes).toFixed(0)}; target ${MOST_FIELD_MS} ms); ` +
      `by the clock of this machine ${Math.min(...times).toFixed(0)} to ${Math.max(...times).toFixed(0)} ms`,
  );
  console.log(`  ${bytes.toFixed(1)} bytes a play retained (target ${MOST_BYTES})`);
  console.log(
    `  every cell counted and every prior fitted: ${warming.toFixed(0)} ms more, ${warm.toFixed(1)} bytes a play`,
  );
  return { model, met: ms <= MOST_FIELD_MS && Math.max(bytes, warm) <= MOST_BYTES };
}

function benchQuestions(charts: readonly PlayColumns[], model: FieldModel): boolean {
  const plays = gatherPlays(
    charts.map((chart) => ({ plays: chart, offense: 'home' })),
    PLAY_FIELDS.map(({ name }) => name),
    (term) => term,
  );
  const facts = classifyPlays(plays, VOCABULARY, DEFAULT_FOOTBALL_SETTINGS);
  const search = (): TellsResult =>
    tells({ plays: facts, side: SIDE, vocabulary: VOCABULARY, confidence: 0.9, level: 0.1 });
  const ask = (): number => {
    const found = profile({
      plays: facts,
      side: SIDE,
      vocabulary: VOCABULARY,
      fieldModel: model,
      player: 0,
      confidence: 0.9,
    });
    let shares = 0;
    for (const { dimensions } of found.situations) {
      for (const { values } of dimensions) for (const { shrunk } of values) shares += shrunk === null ? 0 : 1;
    }
    return shares + leads(search(), 5).length;
  };
  const { each, derived, shared } = plainTables(facts, search());
  const times: Record<'ask' | 'each' | 'derived' | 'shared', number[]> = { ask: [], each: [], derived: [], shared: [] };
  for (let round = 0; round < 2 * ROUNDS; round += 1) {
    const taken = {
      each: millisecondsOf(each.fill),
      derived: millisecondsOf(derived.fill),
      shared: millisecondsOf(shared.fill),
      ask: millisecondsOf(ask),
    };
    // The first half of the rounds warms all of them up.
    if (round < ROUNDS) continue;
    for (const name of ['each', 'derived', 'shared', 'ask'] as const) times[name].push(taken[name]);
  }
  const full = median(times.ask);
  const ratioTo = (baseline: readonly number[]): string => (full / median(baseline)).toFixed(2);
  console.log(`profile, all its posteriors, tells and leads over ${plays.count} snaps: ${full.toFixed(1)} ms`);
  console.log(
    `  a plain loop that builds the same ${derived.tables} tables, those of a cue and a dimension off one shared pass: ` +
      `${median(times.derived).toFixed(1)} ms, ratio ${ratioTo(times.derived)} (target ${MOST_RATIO})`,
  );
  console.log(`  the same tables in a pass each: ${median(times.each).toFixed(1)} ms, ratio ${ratioTo(times.each)}`);
  console.log(
    `  the shared passes alone, ${shared.tables} larger tables and none of those that are tested: ` +
      `${median(times.shared).toFixed(1)} ms, ratio ${ratioTo(times.shared)}`,
  );
  return full / median(times.derived) <= MOST_RATIO;
}

interface PlainTables {
  readonly tables: number;
  readonly fill: () => number;
}

/**
 * The count tables behind a profile and a search for tells, filled the plain way. Every value of a profile takes its
 * dimension's table in its situation. What is tested takes tables of two by two, one for each situation of each game: of
 * one cue value and one call. There are three ways: a pass over the plays for each (`each`); one pass for all values of a
 * cue and a dimension, off which every two by two is written (`derived`), which is as many tables with no pass too many and
 * so what the target is held against; and that pass alone (`shared`), which builds none of the tables that are tested.
 */
function plainTables(
  facts: TendencyPlays,
  { search }: TellsResult,
): Readonly<Record<'each' | 'derived' | 'shared', PlainTables>> {
  const { starts, order } = search.strata;
  const groups = starts.length - 1;
  const groupOf = new Int32Array(order.length);
  for (let group = 0; group < groups; group += 1) groupOf.fill(group, starts[group], starts[group + 1]);
  const situations = facts.situationNames.length;
  const dimensions = DIMENSION_NAMES[SIDE].map((dimension) => readDimension(dimension, facts, VOCABULARY));
  const ofProfile = dimensions.length * (situations + 1);
  const fillProfile = (): number => dimensions.reduce((sum, read) => sum + fillDimension(facts, read), 0);

  const calls = search.families.flatMap((family) => family.columns.map((column) => ({ family, column })));
  const passes = [...new Map(search.families.map((family) => [family.association, family])).values()];
  const fillPass = ({ association, leveledCue, leveledDimension }: (typeof passes)[number]): Int32Array => {
    const { rows, columns } = association;
    const [cue, call] = [leveledCue.levels.codes, leveledDimension.levels.codes];
    const table = new Int32Array(groups * rows * columns);
    for (let at = 0; at < cue.length; at += 1) {
      const [shown, called] = [cue[at] ?? -1, call[at] ?? -1];
      if (shown < 0 || called < 0) continue;
      const cell = ((groupOf[at] ?? 0) * rows + shown) * columns + called;
      table[cell] = (table[cell] ?? 0) + 1;
    }
    return table;
  };
  const callsOf = new Map(
    passes.map(({ association }) => [association, calls.filter(({ family }) => family.association === association)]),
  );
  return {
    each: {
      tables: ofProfile + calls.length * groups,
      fill: () =>
        calls.reduce((sum, { family, column }) => {
          const { leveledCue, leveledDimension, row } = family;
          const [cue, call] = [leveledCue.levels.codes, leveledDimension.levels.codes];
          const table = new Int32Array(groups * 4);
          for (let at = 0; at < cue.length; at += 1) {
            const [shown, called] = [cue[at] ?? -1, call[at] ?? -1];
            if (shown < 0 || called < 0) continue;
            const cell = 4 * (groupOf[at] ?? 0) + (shown === row ? 0 : 2) + (called === column ? 0 : 1);
            table[cell] = (table[cell] ?? 0) + 1;
          }
          return sum + (table[0] ?? 0);
        }, fillProfile()),
    },
    derived: {
      tables: ofProfile + calls.length * groups,
      fill: () =>
        passes.reduce((sum, pass) => {
          const { rows, columns } = pass.association;
          const tested = callsOf.get(pass.association) ?? [];
          const tables = twoByTwos(fillPass(pass), { groups, rows, columns }, tested);
          return sum + (tables[0] ?? 0);
        }, fillProfile()),
    },
    shared: {
      tables: ofProfile + passes.length * groups,
      fill: () => passes.reduce((sum, pass) => sum + (fillPass(pass)[0] ?? 0), fillProfile()),
    },
  };
}

interface PassShape {
  readonly groups: number;
  readonly rows: number;
  readonly columns: number;
}

/** The two-by-two tables of what is tested, group by group, off one pass's table: four counts each. */
function twoByTwos(
  table: Int32Array,
  { groups, rows, columns }: PassShape,
  tested: readonly { readonly family: { readonly row: number }; readonly column: number }[],
): Int32Array {
  const tables = new Int32Array(groups * tested.length * 4);
  const inRow = new Int32Array(rows);
  const inColumn = new Int32Array(columns);
  const cellRow = Int32Array.from(tested, ({ family }) => family.row);
  const cellColumn = Int32Array.from(tested, ({ column }) => column);
  let to = 0;
  for (let group = 0; group < groups; group += 1) {
    const first = group * rows * columns;
    inRow.fill(0);
    inColumn.fill(0);
    let plays = 0;
    for (let row = 0; row < rows; row += 1) {
      for (let column = 0; column < columns; column += 1) {
        const count = table[first + row * columns + column] ?? 0;
        inRow[row] = (inRow[row] ?? 0) + count;
        inColumn[column] = (inColumn[column] ?? 0) + count;
        plays += count;
      }
    }
    for (let call = 0; call < cellRow.length; call += 1) {
      const [row, column] = [cellRow[call] ?? 0, cellColumn[call] ?? 0];
      const both = table[first + row * columns + column] ?? 0;
      const [shown, called] = [inRow[row] ?? 0, inColumn[column] ?? 0];
      tables[to] = both;
      tables[to + 1] = shown - both;
      tables[to + 2] = called - both;
      tables[to + 3] = plays - shown - called + both;
      to += 4;
    }
  }
  return tables;
}

/** A dimension's values over all snaps and in each situation. */
function fillDimension(
  { situation, situationNames, counts }: TendencyPlays,
  { codes, values }: DimensionCodes,
): number {
  const all = situationNames.length;
  const table = new Int32Array((all + 1) * values.length);
  for (let play = 0; play < codes.length; play += 1) {
    const [code, at] = [codes[play] ?? -1, situation[play] ?? -1];
    if (code < 0 || counts[play] !== 1) continue;
    const cells = at < 0 ? [all] : [all, at];
    for (const place of cells) {
      const cell = place * values.length + code;
      table[cell] = (table[cell] ?? 0) + 1;
    }
  }
  return table[0] ?? 0;
}

function millisecondsOf(work: () => unknown): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}
