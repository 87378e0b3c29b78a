import { Injectable } from '@nestjs/common';
import { gatherPlays, type PlayColumns, type PlaySource } from '#domain/charting/play-columns.js';
import { PLAY_FIELDS } from '#domain/charting/play-fields.js';
import type { Vocabulary } from '#domain/charting/vocabulary.js';
import { classifyPlays, DEFAULT_FOOTBALL_SETTINGS } from '#domain/tendencies/classify-plays.js';
import { fieldModel, type FieldModel } from '#domain/tendencies/field-model.js';
import { profile, type ProfileInput } from '#domain/tendencies/profile.js';
import type { Profile } from '#domain/tendencies/profile-shape.js';
import type { Side, TendencyPlays } from '#domain/tendencies/tendency-plays.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import { ChartsService, type CountingChart } from '../charts/charts.service.js';
import type { KnownPlayer } from '../players/players.service.js';
import { TermsService } from '../terms/terms.service.js';

const ALL_FIELDS = PLAY_FIELDS.map((field) => field.name);

const TERM_FIELDS: ReadonlySet<string> = new Set(
  PLAY_FIELDS.filter((field) => field.type === 'term' || field.type === 'terms').map((field) => field.name),
);

/** The field as one clan sees it at one revision of the archive. */
interface Field {
  readonly players: ReadonlyMap<string, number>;
  readonly models: Readonly<Record<Side, FieldModel>>;
}

/** What is known of a player for a reader, ready to be profiled. */
export interface Scouting {
  readonly vocabulary: Vocabulary;
  readonly charts: readonly CountingChart[];
  /** Names every input: the same text means that the same figures would come out. */
  readonly inputs: string;
  side(side: Side, confidence: number): Promise<ProfiledPlays>;
}

export interface ProfiledPlays {
  readonly plays: TendencyPlays;
  readonly profile: Profile;
}

const KEPT_FIELDS = 16;

/** Loads a player's counting plays and the field they are compared with, and computes profiles of them. */
@Injectable()
export class TendenciesService {
  private readonly fields = new Map<string, Field>();

  constructor(
    private readonly charts: ChartsService,
    private readonly terms: TermsService,
  ) {}

  async scout(db: ClanDatabase, player: KnownPlayer): Promise<Scouting> {
    const vocabulary = await this.terms.vocabulary(db);
    const archive = await this.charts.archiveRevision(db);
    const charts = await this.charts.ofPlayers(db, player.recordIds);
    const plays = await this.charts.plays(db, charts);
    const canonical = await this.canonical(db, vocabulary, plays);
    const fieldKey = `${db.clanId} ${archive}`;
    return {
      vocabulary,
      charts,
      inputs: `${fieldKey} ${player.identity} ${charts.map(({ chartId, revision }) => `${chartId}:${revision}`).join(' ')}`,
      side: async (side, confidence) => {
        const field = await this.field(db, vocabulary, fieldKey);
        const sources = charts.map((chart, place): PlaySource => {
          const atHome = chart.homePlayerId === player.identity;
          return { plays: at(plays, place), offense: atHome === (side === 'offense') ? 'home' : 'away' };
        });
        const gathered = gatherPlays(sources, ALL_FIELDS, canonical);
        const facts = classifyPlays(gathered, vocabulary, DEFAULT_FOOTBALL_SETTINGS);
        const input: ProfileInput = {
          plays: facts,
          side,
          vocabulary,
          fieldModel: field.models[side],
          player: field.players.get(player.identity) ?? -1,
          confidence,
        };
        return { plays: facts, profile: profile(input) };
      },
    };
  }

  /** The field's habits, computed once for each revision of the archive as the clan sees it. */
  private async field(db: ClanDatabase, vocabulary: Vocabulary, key: string): Promise<Field> {
    const kept = this.fields.get(key);
    if (kept !== undefined) return kept;
    const charts = await this.charts.ofArchive(db);
    const plays = await this.charts.plays(db, charts);
    const canonical = await this.canonical(db, vocabulary, plays);
    const gathered = gatherPlays(
      plays.map((columns): PlaySource => ({ plays: columns, offense: 'both' })),
      ALL_FIELDS,
      canonical,
    );
    const facts = classifyPlays(gathered, vocabulary, DEFAULT_FOOTBALL_SETTINGS);
    const players = numberPlayers(charts);
    const model = (side: Side): FieldModel =>
      fieldModel({
        facts,
        side,
        vocabulary,
        playerOf: playersOf(gathered, charts, players, side),
        players: players.size,
      });
    const field = { players, models: { offense: model('offense'), defense: model('defense') } };
    if (this.fields.size >= KEPT_FIELDS) this.fields.delete([...this.fields.keys()][0] ?? '');
    this.fields.set(key, field);
    return field;
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
