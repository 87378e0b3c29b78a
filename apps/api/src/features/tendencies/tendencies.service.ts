import { Injectable } from '@nestjs/common';
import { bothSides, gatherPlays, PlayColumns, type PlaySource } from '#domain/charting/play-columns.js';
import { PLAY_FIELDS, type PlayFieldName } from '#domain/charting/play-fields.js';
import { expectedSnaps, type ExpectedSnaps } from '#domain/bracket/expected-snaps.js';
import type { Vocabulary } from '#domain/charting/vocabulary.js';
import {
  DEFAULT_EXPECTED_POINTS,
  fitExpectedPoints,
  type ExpectedPointsChain,
} from '#domain/football/expected-points-chain.js';
import { expectedPointsOfPlays } from '#domain/football/expected-points-added.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '#domain/tendencies/classify-plays.js';
import type { FieldPlays } from '#domain/tendencies/decisions/asked-plays.js';
import { FIELD_MODEL_FIELDS } from '#domain/tendencies/field-model-fields.js';
import { fieldModel, type FieldModel } from '#domain/tendencies/field-model.js';
import { profile } from '#domain/tendencies/profile.js';
import type { Profile } from '#domain/tendencies/profile-shape.js';
import { ALL_SNAPS } from '#domain/tendencies/situation-keys.js';
import { situationPlays } from '#domain/tendencies/situation-plays.js';
import type { Side, TendencyPlays } from '#domain/tendencies/tendency-plays.js';
import { ApiError } from '../../common/problems.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import { ChartsService, type CountingChart } from '../charts/charts.service.js';
import type { KnownPlayer } from '../players/players.service.js';
import { TermsService } from '../terms/terms.service.js';
import { filteredCharts, recencyWeights, withCues, type TendencyFilter } from './tendency-filter.js';

const ALL_FIELDS = PLAY_FIELDS.map((field) => field.name);
const MODEL_FIELDS = [...new Set([...FIELD_MODEL_FIELDS.offense, ...FIELD_MODEL_FIELDS.defense])];

/** What the steps from play to play are told by. */
const EXPECTED_POINTS_FIELDS = [
  'playType',
  'quarter',
  'drive',
  'down',
  'distance',
  'yardsToGoal',
  'snapResult',
  'ledTo',
] as const satisfies readonly PlayFieldName[];

const TERM_FIELDS: ReadonlySet<string> = new Set(
  PLAY_FIELDS.filter((field) => field.type === 'term' || field.type === 'terms').map((field) => field.name),
);

/** The field as one clan sees it at one revision of the archive. */
interface Field {
  /** In which its plays were read. */
  readonly vocabulary: Vocabulary;
  readonly players: ReadonlyMap<string, number>;
  /** In the order of every batch here. */
  readonly charts: readonly CountingChart[];
  readonly chartsOf: ReadonlyMap<string, readonly CountingChart[]>;
  /** What downs, distances and spots are worth, fitted on everything in the field. */
  readonly expectedPoints: ExpectedPointsChain;
  /** What each play of a chart added, worked out when the chart is first asked about. */
  readonly pointsAdded: WeakMap<PlayColumns, Float64Array>;
  readonly models: Readonly<Record<Side, FieldModel>>;
  readonly expectedSnaps: ExpectedSnaps;
  /** Players' plays by player, side and games, for the next question about them. */
  readonly facts: Map<string, TendencyPlays>;
  /**
   * The same plays with every field and what each added; null until somebody asks more than a profile does. The models
   * have only what they read, so that the field of a large archive stays small for those who ask for nothing else.
   */
  everything: Promise<TendencyPlays> | null;
}

/** Whose words the plays are read in, and the archive as it is to them. */
export interface Reader {
  readonly vocabulary: Vocabulary;
  /** Of the archive; see `ChartsRepository.archiveRevision`. */
  readonly archive: string;
  /** ISO 8601 date: only games that were played before that day are there, for the player and the field. Null: all. */
  readonly asOf: string | null;
}

/** What is known of a player for a reader, ready to be asked. */
export interface Scouting {
  readonly vocabulary: Vocabulary;
  /** Those that the filter leaves in, the newest game first. */
  readonly charts: readonly CountingChart[];
  /** Games that would have been in it but for snaps that their chart did not look at. */
  readonly gamesLeftOut: number;
  /** Names every input: the same text means that the same figures would come out. */
  readonly inputs: string;
  /** The player's plays on one side of the ball. */
  own(side: Side, part?: PartOfGames): Promise<OwnSide>;
  /** The same with the field's plays beside them, which take by far the most room. */
  asked(side: Side, part?: PartOfGames): Promise<AskedSide>;
  /** @param situation - only this one, as profiles name it; all that occurred when left out */
  side(side: Side, confidence: number, situation?: string, part?: PartOfGames): Promise<ProfiledPlays>;
}

/** Of the games that a filter leaves in, in the order in which they were played: all, or one half of them. */
export type PartOfGames = 'all' | 'earlier' | 'recent';

export interface OwnSide {
  readonly side: Side;
  /** One chart a game, in the order of `charts`. */
  readonly facts: TendencyPlays;
  readonly charts: readonly CountingChart[];
  readonly fieldModel: FieldModel;
  /** How many snaps one player of the field has in a game. */
  readonly expectedSnaps: ExpectedSnaps;
  /** Those of the field's batch, in its order. */
  readonly fieldCharts: readonly CountingChart[];
  /** Plays that the expected points of the field rest on. */
  readonly expectedPointsPlays: number;
  /** The player's number in the field, -1 where the field has none. */
  readonly player: number;
  readonly vocabulary: Vocabulary;
}

export interface AskedSide extends OwnSide {
  /** The field's plays with every field of the chart, which the model has not. */
  readonly field: FieldPlays;
}

/** Everything that a reader may see, one counting chart a contest, both sides of the ball. */
export interface Archive {
  readonly vocabulary: Vocabulary;
  /** In the order of the batch, the newest game first. */
  readonly charts: readonly CountingChart[];
  /** With the points that each play added. */
  readonly facts: TendencyPlays;
  readonly models: Readonly<Record<Side, FieldModel>>;
  /** Numbers by identity, as the models' `playerOf` holds them. */
  readonly players: ReadonlyMap<string, number>;
  readonly expectedPoints: ExpectedPointsChain;
}

export interface ProfiledPlays {
  readonly plays: TendencyPlays;
  readonly charts: readonly CountingChart[];
  readonly expectedPointsPlays: number;
  readonly profile: Profile;
}

/** What is asked for beyond the player: which plays count, and whether older ones count less. */
export interface ScoutingWish {
  readonly filter: TendencyFilter;
  readonly halfLifeDays: number | null;
}

export const EVERYTHING: ScoutingWish = { filter: {}, halfLifeDays: null };

const KEPT_FIELDS = 16;
/** About 150 bytes a play; a clan prepares for a few opponents at a time. */
const KEPT_FACTS = 32;

interface PlaysAsked {
  readonly player: KnownPlayer;
  readonly side: Side;
  readonly charts: readonly CountingChart[];
}

/** Loads a player's counting plays and the field they are compared with, and computes profiles of them. */
@Injectable()
export class TendenciesService {
  private readonly fields = new Map<string, Field>();

  constructor(
    private readonly charts: ChartsService,
    private readonly terms: TermsService,
  ) {}

  /** What is the same for every player of whom this reader asks; to be asked while something else is on its way. */
  async reader(db: ClanDatabase, asOf: string | null = null): Promise<Reader> {
    return this.readerOf(db, await this.charts.archiveRevision(db), asOf);
  }

  /** The same of an archive whose revision is known. */
  async readerOf(db: ClanDatabase, archive: string, asOf: string | null = null): Promise<Reader> {
    // A change of the clan's words raises the revision too.
    const known = this.fields.get(fieldKey(db, { archive, asOf }))?.vocabulary;
    return { vocabulary: known ?? (await this.terms.vocabulary(db)), archive, asOf };
  }

  async scout(
    db: ClanDatabase,
    player: KnownPlayer,
    wish: ScoutingWish = EVERYTHING,
    known?: Reader,
  ): Promise<Scouting> {
    const [scouting] = await this.scoutAll(db, [player], wish, known);
    if (scouting === undefined) throw new Error('one player has no scouting');
    return scouting;
  }

  /** Each of these players, in their order. */
  async scoutAll(
    db: ClanDatabase,
    players: readonly KnownPlayer[],
    wish: ScoutingWish = EVERYTHING,
    known?: Reader,
  ): Promise<Scouting[]> {
    const reader = known ?? (await this.reader(db));
    const field = this.fields.get(fieldKey(db, reader));
    const chartsOf = field?.chartsOf ?? chartsByPlayer(await this.ofPlayers(db, players, reader));
    return players.map((player) => this.scouting(db, player, chartsOf.get(player.identity) ?? [], wish, reader));
  }

  /** Only until the field is there, which has every chart that counts: most questions are answered before it is needed. */
  private async ofPlayers(
    db: ClanDatabase,
    players: readonly KnownPlayer[],
    { asOf }: Reader,
  ): Promise<readonly CountingChart[]> {
    const records = players.flatMap(({ recordIds }) => recordIds);
    return playedBefore(await this.charts.ofPlayers(db, records), asOf);
  }

  private scouting(
    db: ClanDatabase,
    player: KnownPlayer,
    visible: readonly CountingChart[],
    wish: ScoutingWish,
    reader: Reader,
  ): Scouting {
    const { vocabulary } = reader;
    const charts = filteredCharts(visible, wish.filter);
    const gamesLeftOut = filteredCharts(visible, { ...wish.filter, allSnaps: false }).length - charts.length;
    const key = fieldKey(db, reader);
    const own = async (side: Side, part: PartOfGames = 'all'): Promise<OwnSide> => {
      // Only now: most questions are answered by their tag, before any play is needed.
      const field = await this.field(db, reader);
      const [from, to] = rangeOf(part, charts.length);
      const taken = charts.slice(from, to);
      const facts = await this.facts(db, vocabulary, field, { player, side, charts: taken });
      return {
        side,
        facts: withCues(facts, wish.filter.cues ?? [], vocabulary),
        charts: taken,
        fieldModel: field.models[side],
        expectedSnaps: field.expectedSnaps,
        fieldCharts: field.charts,
        expectedPointsPlays: field.expectedPoints.plays,
        player: field.players.get(player.identity) ?? -1,
        vocabulary,
      };
    };
    const asked = async (side: Side, part?: PartOfGames): Promise<AskedSide> => {
      const found = await own(side, part);
      const facts = await this.everything(db, vocabulary, await this.field(db, reader));
      return { ...found, field: { facts, playerOf: found.fieldModel.playerOf } };
    };
    return {
      vocabulary,
      charts,
      gamesLeftOut,
      inputs: JSON.stringify([key, player.identity, wish, charts.map(({ chartId, revision }) => [chartId, revision])]),
      own,
      asked,
      side: async (side, confidence, situation, part) => {
        const { facts, charts: taken, ...rest } = await own(side, part);
        const weights = wish.halfLifeDays === null ? {} : { weights: recencyWeights(facts, taken, wish.halfLifeDays) };
        const situations = situation === undefined ? {} : { situations: [knownSituation(facts, situation)] };
        return {
          plays: facts,
          expectedPointsPlays: rest.expectedPointsPlays,
          charts: taken,
          profile: profile({ ...rest, plays: facts, confidence, ...weights, ...situations }),
        };
      },
    };
  }

  /** Names everything in the archive as the clan sees it: the same text means that the same figures would come out. */
  async archiveInputs(db: ClanDatabase, known?: Reader): Promise<string> {
    return fieldKey(db, known ?? { archive: await this.charts.archiveRevision(db), asOf: null });
  }

  async archive(db: ClanDatabase, known?: Reader): Promise<Archive> {
    const reader = known ?? (await this.reader(db));
    const { vocabulary } = reader;
    const field = await this.field(db, reader);
    return archiveOf(field, await this.everything(db, vocabulary, field));
  }

  /** Every field of the field's plays, gathered once, however many ask at the same time. */
  private async everything(db: ClanDatabase, vocabulary: Vocabulary, field: Field): Promise<TendencyPlays> {
    while (field.everything !== null) {
      // Whoever gathers may leave before the end: then it is for the next that asks.
      const gathered = await field.everything.catch(() => null);
      if (gathered !== null) return gathered;
    }
    field.everything = this.gatherEverything(db, vocabulary, field).catch((error: unknown) => {
      field.everything = null;
      throw error;
    });
    return field.everything;
  }

  private async gatherEverything(db: ClanDatabase, vocabulary: Vocabulary, field: Field): Promise<TendencyPlays> {
    const { facts } = field.models.offense;
    // The same plays in the same order: what the models have of them is shared with them.
    const held = new Map([...field.models.defense.facts.plays.columns, ...facts.plays.columns]);
    const rest = await this.gathered(
      db,
      vocabulary,
      field.charts,
      ALL_FIELDS.filter((name) => !held.has(name)),
    );
    const { charts, chartIndex, playNumber, orderInGame, offenseIsHome } = facts.plays;
    const columns = new Map([...held, ...rest.columns]);
    const plays = new PlayColumns({ charts, chartIndex, playNumber, orderInGame, offenseIsHome, columns });
    return { ...facts, plays, pointsAdded: expectedPointsOfPlays(plays, vocabulary, field.expectedPoints).added };
  }

  private async gathered(
    db: ClanDatabase,
    vocabulary: Vocabulary,
    charts: readonly CountingChart[],
    fields: readonly PlayFieldName[],
  ): Promise<PlayColumns> {
    const parts = await this.charts.batches(db, charts, fields);
    return gatherPlays(parts.map(bothSides), fields, await this.canonical(db, vocabulary, parts));
  }

  /** The field's habits, computed once for each revision of the archive as the clan sees it. */
  private async field(db: ClanDatabase, reader: Reader): Promise<Field> {
    const { vocabulary } = reader;
    const key = fieldKey(db, reader);
    const kept = this.fields.get(key);
    if (kept !== undefined) return kept;
    const charts = playedBefore(await this.charts.ofArchive(db), reader.asOf);
    const gathered = await this.gathered(db, vocabulary, charts, MODEL_FIELDS);
    const facts = classifyPlays(gathered, vocabulary, DEFAULT_FOOTBALL_SETTINGS);
    const players = numberPlayers(charts);
    const situations = situationPlays(facts);
    const model = (side: Side): FieldModel =>
      fieldModel({
        facts,
        side,
        vocabulary,
        playerOf: playersOf(gathered, charts, players, side),
        players: players.size,
        situations,
      });
    const field: Field = {
      vocabulary,
      players,
      charts,
      chartsOf: chartsByPlayer(charts),
      expectedPoints: fitExpectedPoints(gathered, vocabulary, DEFAULT_EXPECTED_POINTS),
      pointsAdded: new WeakMap<PlayColumns, Float64Array>(),
      models: { offense: model('offense'), defense: model('defense') },
      expectedSnaps: expectedSnaps(facts, charts.length),
      facts: new Map<string, TendencyPlays>(),
      everything: null,
    };
    if (this.fields.size >= KEPT_FIELDS) this.fields.delete([...this.fields.keys()][0] ?? '');
    this.fields.set(key, field);
    return field;
  }

  /** The player's plays in these games, gathered once for all that is asked of them. */
  private async facts(db: ClanDatabase, vocabulary: Vocabulary, field: Field, of: PlaysAsked): Promise<TendencyPlays> {
    const { player, side, charts } = of;
    const key = `${player.identity} ${side} ${charts.map(({ chartId, revision }) => `${chartId}:${revision}`).join()}`;
    const kept = field.facts.get(key);
    if (kept !== undefined) return kept;
    const plays = await this.charts.plays(db, charts);
    const canonical = await this.canonical(db, vocabulary, plays);
    const sources = charts.map((chart, place): PlaySource => {
      const atHome = chart.homePlayerId === player.identity;
      return { plays: at(plays, place), offense: atHome === (side === 'offense') ? 'home' : 'away' };
    });
    const facts = {
      ...classifyPlays(gatherPlays(sources, ALL_FIELDS, canonical), vocabulary, DEFAULT_FOOTBALL_SETTINGS),
      pointsAdded: pointsAdded(sources, canonical, vocabulary, field),
    };
    if (field.facts.size >= KEPT_FACTS) field.facts.delete([...field.facts.keys()][0] ?? '');
    field.facts.set(key, facts);
    return facts;
  }

  private canonical(
    db: ClanDatabase,
    vocabulary: Vocabulary,
    plays: readonly PlayColumns[],
  ): Promise<(termId: number) => number | null> {
    const ids = new Set<number>();
    for (const { columns } of plays) {
      for (const [name, column] of columns) {
        if (!TERM_FIELDS.has(name) || !('meanings' in column)) continue;
        for (const meaning of column.meanings) ids.add(meaning);
      }
    }
    return this.terms.canonicalIds(db, vocabulary, ids);
  }
}

function archiveOf({ vocabulary, charts, models, players, expectedPoints }: Field, facts: TendencyPlays): Archive {
  return { vocabulary, charts, facts, models, players, expectedPoints };
}

function fieldKey(
  { clanId }: Pick<ClanDatabase, 'clanId'>,
  { archive, asOf }: Pick<Reader, 'archive' | 'asOf'>,
): string {
  return asOf === null ? `${clanId} ${archive}` : `${clanId} ${archive} before ${asOf}`;
}

/** A game without a date may be any day's, so an earlier day does not know it. */
function playedBefore(charts: readonly CountingChart[], asOf: string | null): readonly CountingChart[] {
  return asOf === null ? charts : charts.filter(({ playedOn }) => playedOn !== null && playedOn < asOf);
}

/** Charts come newest game first; of an odd number the one in the middle is recent. */
function rangeOf(part: PartOfGames, games: number): readonly [from: number, to: number] {
  const cut = Math.ceil(games / 2);
  return part === 'all' ? [0, games] : part === 'recent' ? [0, cut] : [cut, games];
}

/** What the sources' plays added; what followed one can only be told with the other side's plays between. */
function pointsAdded(
  sources: readonly PlaySource[],
  canonical: (termId: number) => number | null,
  vocabulary: Vocabulary,
  { expectedPoints, pointsAdded: kept }: Field,
): Float64Array {
  const parts = sources.map(({ plays, offense }) => {
    let added = kept.get(plays);
    if (added === undefined) {
      // Plays are never joined across charts, so one chart at a time gives the same.
      const whole = gatherPlays([bothSides(plays)], EXPECTED_POINTS_FIELDS, canonical);
      added = expectedPointsOfPlays(whole, vocabulary, expectedPoints).added;
      kept.set(plays, added);
    }
    const wanted = offense === 'home' ? 1 : 0;
    return added.filter((_, play) => plays.offenseIsHome[play] === wanted);
  });
  const together = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    together.set(part, at);
    at += part.length;
  }
  return together;
}

function knownSituation({ situationNames }: TendencyPlays, situation: string): string {
  const names = new Set([ALL_SNAPS, ...situationNames]);
  if (names.has(situation)) return situation;
  throw new ApiError('request.invalid', 'there is no such situation', {
    errors: [{ field: 'situation', found: situation, expected: `one of: ${[...names].join(', ')}` }],
  });
}

/** Charts by the identity of each of their two players, in their order. */
function chartsByPlayer(charts: readonly CountingChart[]): Map<string, CountingChart[]> {
  const byPlayer = new Map<string, CountingChart[]>();
  for (const chart of charts) {
    for (const identity of new Set([chart.homePlayerId, chart.awayPlayerId])) {
      const theirs = byPlayer.get(identity);
      if (theirs === undefined) byPlayer.set(identity, [chart]);
      else theirs.push(chart);
    }
  }
  return byPlayer;
}

function numberPlayers(charts: readonly CountingChart[]): Map<string, number> {
  const numbers = new Map<string, number>();
  for (const { homePlayerId, awayPlayerId } of charts) {
    for (const id of [homePlayerId, awayPlayerId]) if (!numbers.has(id)) numbers.set(id, numbers.size);
  }
  return numbers;
}

/** For each play the number of the player whose habit it shows: who has the ball, or who defends. */
function playersOf(
  plays: PlayColumns,
  charts: readonly CountingChart[],
  numbers: ReadonlyMap<string, number>,
  side: Side,
): Int32Array {
  const home = charts.map((chart) => numbers.get(chart.homePlayerId) ?? -1);
  const away = charts.map((chart) => numbers.get(chart.awayPlayerId) ?? -1);
  return Int32Array.from(plays.chartIndex, (chart, play) => {
    const homeHasBall = plays.offenseIsHome[play] === 1;
    return (homeHasBall === (side === 'offense') ? home : away)[chart] ?? -1;
  });
}

function at<Item>(items: readonly Item[], place: number): Item {
  const item = items[place];
  if (item === undefined) throw new Error(`no item at ${place}`);
  return item;
}
