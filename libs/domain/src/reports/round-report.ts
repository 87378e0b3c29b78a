import type { Vocabulary } from '../charting/vocabulary.js';
import type { Note } from '../coaching/note.js';
import { notableShares } from '../tendencies/notable.js';
import type { Profile } from '../tendencies/profile-shape.js';
import { ALL_SNAPS } from '../tendencies/situation-keys.js';
import type { TendencyPlays } from '../tendencies/tendency-plays.js';
import type { ReportAnswers } from './answers/report-answers-shape.js';
import { callGrid } from './call-grid.js';
import { attachPoints } from './coaching/attach-points.js';
import { filmList, type FilmClaim } from './film-list.js';
import { reportHabits, type HabitsInput } from './habits/habits.js';
import type { ReportHabits } from './habits/habits-shape.js';
import type { NextOpponents } from './next-opponents-shape.js';
import type { ForecastTable, PredictedTable } from './predictions/predictions-shape.js';
import { valueWords } from './claim-words.js';
import { situationResult, strongAndWeak } from './result-claims.js';
import {
  ROUND_REPORT_FORMAT,
  type FilmToChart,
  type KnownField,
  type ReportChart,
  type ReportSample,
  type ResultClaim,
  type RoundReport,
  type RoundReportSettings,
  type ShareClaim,
  type SideReport,
  type SituationReport,
  type ThinSituation,
} from './round-report-shape.js';
import { allSnaps, BY_SITUATION, MOST_USED, shareClaim, topClaims, type ClaimSource } from './share-claims.js';

/** A side's profile and the plays it was computed from. */
export interface ProfiledSide {
  readonly facts: TendencyPlays;
  readonly profile: Profile;
}

export interface RoundReportInput {
  readonly playerId: string;
  readonly eventId: string | null;
  readonly round: string | null;
  /** ISO 8601 instant; the domain has no clock. */
  readonly madeAt: string;
  /** ISO 8601 date that the plays are from before; left out where they are all there are. */
  readonly asOf?: string;
  readonly codeVersion: string;
  /** Of whatever is drawn at random for the report; kept with it. */
  readonly seed: number;
  readonly settings: RoundReportSettings;
  /** The charts that the plays come from. */
  readonly charts: readonly ReportChart[];
  readonly offense: ProfiledSide;
  readonly defense: ProfiledSide;
  /** What the habits are read from; left out, the report says nothing of them. */
  readonly habits?: HabitsInput;
  /** Answers to the player's calls; left out, the report says nothing of them. */
  readonly answers?: ReportAnswers;
  /** Coaching points that the whole clan reads, and by whose vocabulary; left out, the report says nothing of them. */
  readonly notes?: { readonly of: readonly Note[]; readonly vocabulary: Vocabulary };
  /** The probabilities of the calls; left out, no report card can judge them. */
  readonly predicted?: readonly PredictedTable[];
  /** What the forecast said beside them; left out where there is none. */
  readonly forecast?: readonly ForecastTable[];
  /** What to chart next; left out where nothing is known of it. */
  readonly chartNext?: readonly FilmToChart[];
  /** Who is next; left out where the report was asked for by name. */
  readonly next?: NextOpponents;
}

const MOST_STAND_OUT = 8;
const MOST_RESULTS = 4;

/**
 * Assembles the scouting report of one player for one round, as plain data that outlives renamings: numbers, ids and
 * labels of terms, no handles. The same input gives the same report, claim ids included. A player without plays gets a
 * report that says so: empty lists, no zeros.
 *
 * @throws DomainError `stats.invalid_probability` for settings outside (0, 1)
 */
export function assembleRoundReport(input: RoundReportInput): RoundReport {
  const offense = sideReport(input.offense, input.settings);
  const defense = sideReport(input.defense, input.settings);
  const habits = input.habits === undefined ? null : reportHabits(input.habits, input.seed);
  const sample = sampleOf(input);
  const subject = { ...input, sample, offense, defense };
  const points = input.notes === undefined ? [] : attachPoints(input.notes.of, subject, input.notes.vocabulary);
  return {
    formatVersion: ROUND_REPORT_FORMAT,
    codeVersion: input.codeVersion,
    seed: input.seed,
    settings: input.settings,
    playerId: input.playerId,
    eventId: input.eventId,
    round: input.round,
    madeAt: input.madeAt,
    ...(input.asOf !== undefined && { asOf: input.asOf }),
    sample,
    offense,
    defense,
    ...(habits !== null && { habits }),
    ...(input.answers !== undefined && { answers: input.answers }),
    ...(points.length > 0 && { coachingPoints: points }),
    ...(input.next !== undefined && { next: input.next }),
    ...(input.predicted !== undefined && { predicted: input.predicted }),
    ...(input.forecast !== undefined && { forecast: input.forecast }),
    ...(input.chartNext !== undefined && input.chartNext.length > 0 && { chartNext: input.chartNext }),
    film: filmList(
      [...habitFilm(habits), ...filmClaims(offense), ...filmClaims(defense)].sort((a, b) => b.weight - a.weight),
      [input.offense.facts.plays, input.defense.facts.plays],
      input.settings.filmLength,
    ),
    thinSituations: [
      ...thinSituations(input.offense.profile, input.settings.thinSnaps),
      ...thinSituations(input.defense.profile, input.settings.thinSnaps),
    ],
  };
}

function sideReport({ facts, profile }: ProfiledSide, settings: RoundReportSettings): SideReport {
  const source: ClaimSource = { side: profile.side, facts };
  const all = allSnaps(profile.situations);
  const grid = callGrid(source, profile);
  return {
    side: profile.side,
    snaps: profile.snaps,
    games: profile.games,
    mostUsed: all === undefined ? [] : topClaims(source, all, MOST_USED[profile.side], 1),
    bySituation: profile.situations
      .filter(({ situation }) => situation !== ALL_SNAPS)
      .map((situation): SituationReport => ({
        situation: situation.situation,
        label: situation.situation,
        snaps: situation.snaps,
        claims: topClaims(source, situation, BY_SITUATION[profile.side], 2),
        result: situationResult(source, situation),
      })),
    standsOut: notableShares(profile, settings)
      .slice(0, MOST_STAND_OUT)
      .map(({ situation, dimension, share, direction, certainty, established }) => ({
        claim: shareClaim(source, situation, dimension, share),
        direction,
        certainty,
        established,
      })),
    ...strongAndWeak(source, profile, MOST_RESULTS),
    ...(grid !== null && { callGrid: grid }),
  };
}

function sampleOf({ charts, offense, defense }: RoundReportInput): ReportSample {
  const dates = charts.flatMap(({ playedOn }) => (playedOn === null ? [] : [playedOn])).sort();
  const versions = charts.flatMap(({ rulesVersion }) => (rulesVersion === null ? [] : [rulesVersion]));
  return {
    charts,
    games: new Set(charts.map(({ gameId }) => gameId)).size,
    offenseSnaps: offense.profile.snaps,
    defenseSnaps: defense.profile.snaps,
    newestGame: dates.at(-1) ?? null,
    rulesVersions: [...new Set(versions)].sort(),
    knownOn: [...knownOn(offense.profile), ...knownOn(defense.profile)],
  };
}

function knownOn({ side, situations }: Profile): KnownField[] {
  const all = allSnaps(situations);
  if (all === undefined) return [];
  return all.dimensions.map(({ dimension, label, known, visibility }) => ({
    side,
    dimension,
    label,
    known,
    snaps: all.snaps,
    goesWithResult: visibility !== null,
  }));
}

function thinSituations({ side, situations }: Profile, thinSnaps: number): ThinSituation[] {
  return situations
    .filter(({ situation, snaps }) => situation !== ALL_SNAPS && snaps < thinSnaps)
    .map(({ situation, snaps }) => ({ side, situation, label: situation, snaps }));
}

/** What stands out is worth most to see, then what works and what does not, then what is merely frequent. */
const FILM_WEIGHTS = { established: 4, lead: 2, result: 2, situation: 1, mostUsed: 1 };

/** A tell is worth most of all to see: it is acted on before the snap. */
function habitFilm(habits: ReportHabits | null): FilmClaim[] {
  const claims = habits?.givesAway.flatMap((topic) => topic.claims) ?? [];
  return claims
    .filter(({ topic, status }) => status === 'established' && (topic === 'tells' || topic === 'looks'))
    .map(({ id, label, side, plays }) => ({
      id,
      weight: FILM_WEIGHTS.established,
      reason: `gives it away: ${label}, ${side}`,
      plays,
    }));
}

function filmClaims({ side, mostUsed, bySituation, standsOut, strong, weak }: SideReport): FilmClaim[] {
  const ofShare = (claim: ShareClaim, weight: number, what: string): FilmClaim => ({
    id: claim.id,
    weight,
    reason: `${what}: ${valueWords(claim)}, ${side}, ${claim.situation}`,
    plays: claim.plays,
  });
  // A strong offense shows in what succeeded, a strong defense in what did not.
  const ofResult = (claim: ResultClaim, what: 'strong' | 'weak'): FilmClaim => ({
    id: claim.id,
    weight: FILM_WEIGHTS.result,
    reason: `${what}: ${valueWords(claim)}, ${side}`,
    plays:
      (what === 'strong') === (side === 'offense')
        ? claim.plays.slice(0, claim.successes)
        : claim.plays.slice(claim.successes),
  });
  return [
    // What is done less than elsewhere cannot be watched.
    ...standsOut
      .filter(({ direction }) => direction === 'more')
      .map(({ claim, established }) =>
        ofShare(claim, established ? FILM_WEIGHTS.established : FILM_WEIGHTS.lead, 'stands out'),
      ),
    ...weak.map((claim) => ofResult(claim, 'weak')),
    ...strong.map((claim) => ofResult(claim, 'strong')),
    ...bySituation.flatMap(({ claims }) => claims.map((claim) => ofShare(claim, FILM_WEIGHTS.situation, 'most used'))),
    ...mostUsed.map((claim) => ofShare(claim, FILM_WEIGHTS.mostUsed, 'most used')),
  ];
}
