import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { gatherPlays, type PlayColumns } from '#domain/charting/play-columns.js';
import { starterVocabulary } from '#domain/charting/vocabulary.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '#domain/tendencies/classify-plays.js';
import { FIELD_MODEL_FIELDS, forFieldModel } from '#domain/tendencies/field-model-fields.js';
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
      facts: forFieldModel(classifyPlays(plays, VOCABULARY, DEFAULT_FOOTBALL_SETTINGS), SIDE),
      side: SIDE,
      vocabulary: VOCABULARY,
      playerOf: plays.chartIndex.map((chart, play) => (2 * chart + (plays.offenseIsHome[play] ?? 0)) % FIELD_PLAYERS),
      players: FIELD_PLAYERS,
    });
  };
  const times: number[] = [];
  for (let round = 0; round < 5; round += 1) times.push(millisecondsOf(build));
  const before = retainedBytes();
  const model = build();
  const bytes = (retainedBytes() - before) / model.facts.plays.count;
  const warming = millisecondsOf(() => {
    model.warm();
  });
  const warm = (retainedBytes() - before) / model.facts.plays.count;
  // A busy machine only ever adds.
  const ms = Math.min(...times);
  console.log(
    `field of ${model.facts.plays.count} plays: built in ${ms.toFixed(0)} ms, the fastest of ${times.length} (target ${MOST_FIELD_MS} ms)`,
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
  const { each, shared } = plainTables(facts, search());
  const times: Record<'ask' | 'each' | 'shared', number[]> = { ask: [], each: [], shared: [] };
  for (let round = 0; round < 2 * ROUNDS; round += 1) {
    const [one, other, full] = [millisecondsOf(each.fill), millisecondsOf(shared.fill), millisecondsOf(ask)];
    // The first half of the rounds warms all three up.
    if (round < ROUNDS) continue;
    times.each.push(one);
    times.shared.push(other);
    times.ask.push(full);
  }
  const [full, one, other] = [median(times.ask), median(times.each), median(times.shared)];
  console.log(`profile, all its posteriors, tells and leads over ${plays.count} snaps: ${full.toFixed(1)} ms`);
  console.log(
    `  a plain loop that fills as many tables, ${each.tables}: ${one.toFixed(1)} ms, ratio ${(full / one).toFixed(2)} ` +
      `(target ${MOST_RATIO})`,
  );
  console.log(
    `  one that fills ${shared.tables} larger ones in shared passes: ${other.toFixed(1)} ms, ratio ${(full / other).toFixed(2)}`,
  );
  return full / one <= MOST_RATIO;
}

interface PlainTables {
  readonly tables: number;
  readonly fill: () => number;
}

/**
 * The count tables behind a profile and a search for tells, filled the plain way. Every value of a profile takes its
 * dimension's table in its situation. What is tested takes tables of two by two, one for each situation of each game: of
 * one cue value and one call. A loop that knows that all values of a cue and of a dimension can share a pass fills far
 * fewer and larger ones; it is printed beside, since it is the hardest floor there is.
 */
function plainTables(
  facts: TendencyPlays,
  { search }: TellsResult,
): { readonly each: PlainTables; readonly shared: PlainTables } {
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
    shared: {
      tables: ofProfile + passes.length * groups,
      fill: () =>
        passes.reduce((sum, { association, leveledCue, leveledDimension }) => {
          const { rows, columns } = association;
          const [cue, call] = [leveledCue.levels.codes, leveledDimension.levels.codes];
          const table = new Int32Array(groups * rows * columns);
          for (let at = 0; at < cue.length; at += 1) {
            const [shown, called] = [cue[at] ?? -1, call[at] ?? -1];
            if (shown < 0 || called < 0) continue;
            const cell = ((groupOf[at] ?? 0) * rows + shown) * columns + called;
            table[cell] = (table[cell] ?? 0) + 1;
          }
          return sum + (table[0] ?? 0);
        }, fillProfile()),
    },
  };
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

/** Bytes that stay after a full collection, typed arrays included. */
function retainedBytes(): number {
  setFlagsFromString('--expose-gc');
  // Buffers of arrays that were collected are given back by the collection after it.
  for (let pass = 0; pass < 4; pass += 1) runInNewContext('gc()');
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return heapUsed + arrayBuffers;
}
