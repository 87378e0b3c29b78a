import { Injectable } from '@nestjs/common';
import type { PlayColumns } from '#domain/charting/play-columns.js';
import {
  fieldFigures,
  ourFigures,
  type FieldFigures,
  type FiguresInput,
  type OurFigures,
} from '#domain/call-sheet/our-figures.js';
import type { TheirFourthDowns } from '#domain/call-sheet/call-sheet-shape.js';
import { DEFAULT_FOOTBALL_SETTINGS } from '#domain/tendencies/classify-plays.js';
import { decisions, type Decision } from '#domain/tendencies/decisions/decisions.js';
import type { TendencyPlays } from '#domain/tendencies/tendency-plays.js';
import { clockOfGames } from '../../common/clock-of-games.js';
import type { ClanDatabase } from '../../database/clan-transaction.js';
import type { KnownPlayer } from '../players/players.service.js';
import { TendenciesService, type Archive } from '../tendencies/tendencies.service.js';

const SECONDS_A_MINUTE = 60;

/** Our own chances, and how often an opponent goes for it. */
@Injectable()
export class OurFiguresService {
  /** By the plays of the archive, which everybody is asked about. */
  private readonly counted = new WeakMap<TendencyPlays, FieldFigures>();

  constructor(private readonly tendencies: TendenciesService) {}

  of(archive: Archive, { identity }: KnownPlayer, confidence: number): OurFigures {
    const { facts, players } = archive;
    const field = this.counted.get(facts) ?? fieldFigures(figuresInput(archive));
    this.counted.set(facts, field);
    return ourFigures(field, { player: players.get(identity) ?? -1, confidence });
  }

  /** The opponent's fourth downs, over whole games. */
  async theirs(
    db: ClanDatabase,
    opponent: KnownPlayer,
    confidence: number,
  ): Promise<{ decision: Decision; plays: PlayColumns }> {
    const scouting = await this.tendencies.scout(db, opponent, { filter: { allSnaps: true }, halfLifeDays: null });
    const { field, fieldCharts, charts, facts, player, vocabulary } = await scouting.asked('offense');
    const asked = { facts, field, player, vocabulary, confidence };
    const clock = clockOfGames([...charts, ...fieldCharts]);
    const { fourthDown } = decisions(asked, { situations: DEFAULT_FOOTBALL_SETTINGS.situations, clock });
    return { decision: fourthDown, plays: facts.plays };
  }
}

function figuresInput({ facts, charts, models, players, vocabulary }: Archive): FiguresInput {
  return {
    facts,
    offenseOf: models.offense.playerOf,
    players: players.size,
    games: charts.map(({ allSnaps, quarterMinutes }) =>
      allSnaps && quarterMinutes !== null ? { quarterSeconds: quarterMinutes * SECONDS_A_MINUTE } : null,
    ),
    vocabulary,
  };
}

/** By yards to go, as a sheet has room for them. */
export function byDistance({ by }: Decision): TheirFourthDowns[] {
  return by
    .filter(({ partition }) => partition === 'distance')
    .flatMap(({ parts }) =>
      parts.map(({ part, share: { count, known, field } }) => ({
        part,
        count,
        known,
        fieldCount: field?.count ?? 0,
        fieldKnown: field?.known ?? 0,
      })),
    );
}
