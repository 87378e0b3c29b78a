import { Injectable } from '@nestjs/common';
import { enterResult } from '#domain/bracket/enter-result.js';
import { AWAY, HOME } from '#domain/bracket/bracket-shape.js';
import { requireCurrent } from '../../common/change.js';
import type { Creation } from '../../common/creation.js';
import { AuditRepository } from '../../common/audit.repository.js';
import { etagOf } from '../../common/etag.js';
import { ApiError } from '../../common/problems.js';
import { Resources } from '../../common/resources.js';
import { ClanTransactions, type ClanDatabase } from '../../database/clan-transaction.js';
import type { Credential } from '../access/credential.js';
import { EventsService } from '../events/events.service.js';
import { MatchesService } from '../events/matches.service.js';
import { asApiError } from './bracket-errors.js';
import type { BracketInput, BracketMadeResponse, ResultInput, ResultResponse } from './brackets.dto.js';
import { BracketsRepository, type BracketEntrant, type LinkedMatch } from './brackets.repository.js';
import { builtMatches, enteredMatches } from './entered-bracket.js';
import { addressOf, eventBracket, type EventBracket } from './event-bracket.js';

@Injectable()
export class BracketsService {
  constructor(
    private readonly transactions: ClanTransactions,
    private readonly resources: Resources,
    private readonly repository: BracketsRepository,
    private readonly events: EventsService,
    private readonly matches: MatchesService,
    private readonly audit: AuditRepository,
  ) {}

  make(credential: Credential, creation: Creation, eventId: string, input: BracketInput): Promise<BracketMadeResponse> {
    return this.resources.create(credential, creation, async (db) => {
      await this.events.requireOwn(db, eventId);
      if ((await this.repository.matches(db, eventId, true)).length > 0) {
        throw new ApiError('resource.taken', 'the event has matches already; remove them first');
      }
      const entrants = await this.repository.entrants(db, eventId);
      const bracket = eventBracket(draft(input, entrants), entrants);
      requireEverybody(bracket, entrants);
      await this.repository.insert(db, eventId, withSeats(bracket));
      const structure = input.structure ?? 'as entered';
      await this.repository.nameStructure(db, eventId, structure);
      await this.audit.did(db, 'bracket.made', 'event', eventId, { structure });
      return { eventId, structure, entrants: bracket.entrants.length, matches: bracket.matches.length };
    });
  }

  /** Enters, corrects or takes back a result; odds, queue and reports follow from what is stored. */
  enterResult(
    credential: Credential,
    { eventId, matchId, ifMatch }: { eventId: string; matchId: string; ifMatch: string },
    input: ResultInput,
  ): Promise<ResultResponse> {
    return this.transactions.run(credential, 'write', async (db) => {
      await this.events.requireOwn(db, eventId);
      const bracket = await this.load(db, eventId, true);
      requireCurrent(ifMatch, etagOf(await this.matches.requireOwn(db, eventId, matchId)));
      const match = bracket.matches.findIndex(({ id }) => id === matchId);
      const { winner = null, homeWins = 0, awayWins = 0, forfeited = false, drop = false } = input;
      const result = { winner, homeWins, awayWins, forfeited };
      const entered = refusing(bracket, () =>
        enterResult(bracket.plan, bracket.state, bracket.lots, { match, result, drop }),
      );
      const after = withSeats({ ...bracket, state: entered.state }, new Map([[match, forfeited]]));
      const changed = after.filter((row, at) => at === match || !sameRow(row, bracket.matches[at]));
      await this.repository.write(db, eventId, changed);
      const idOf = (at: number): string => bracket.matches[at]?.id ?? '';
      const row = after[match];
      const told = {
        eventId,
        matchId,
        winnerEntrantId: row?.winnerEntrantId ?? null,
        movedMatchIds: entered.moved.map(idOf),
        droppedMatchIds: entered.dropped.map(idOf),
      };
      await this.audit.did(db, 'match.result', 'match', matchId, { dropped: told.droppedMatchIds });
      return { ...told, status: row?.status ?? 'ready' };
    });
  }

  /** @throws ApiError `bracket.incomplete`, `bracket.invalid` as `eventBracket` does */
  async load(db: ClanDatabase, eventId: string, lock = false): Promise<EventBracket> {
    const matches = await this.repository.matches(db, eventId, lock);
    return eventBracket(matches, await this.repository.entrants(db, eventId));
  }
}

function draft(input: BracketInput, entrants: readonly BracketEntrant[]): LinkedMatch[] {
  const { structure, matches } = input;
  if ((structure === undefined) === (matches === undefined)) {
    throw new ApiError('request.invalid', 'give either a structure or the matches', {
      errors: [{ field: 'structure', found: structure ?? '', expected: 'a structure, or matches' }],
    });
  }
  if (matches !== undefined) return enteredMatches(matches);
  try {
    return structure === undefined ? [] : builtMatches(structure, input, entrants);
  } catch (error) {
    throw asApiError(error, []);
  }
}

function requireEverybody(bracket: EventBracket, entrants: readonly BracketEntrant[]): void {
  const placed = new Set(bracket.entrants.map(({ id }) => id));
  const errors = entrants
    .filter(({ id }) => !placed.has(id))
    .map(({ handle }) => ({ field: 'matches', found: handle, expected: 'a place for every entrant' }));
  if (errors.length > 0) throw new ApiError('bracket.invalid', 'some entrants stand nowhere', { errors });
}

function refusing<Result>({ matches }: EventBracket, work: () => Result): Result {
  try {
    return work();
  } catch (error) {
    throw asApiError(error, matches.map(addressOf));
  }
}

/** The rows as the state has them. Whether a match was forfeited is only known of those that are told here. */
function withSeats(
  { matches, entrants, state }: EventBracket,
  forfeits: ReadonlyMap<number, boolean> = new Map(),
): LinkedMatch[] {
  const idAt = (seat: number | undefined): string | null => entrants[seat ?? -1]?.id ?? null;
  return matches.map((match, at) => {
    const [homeEntrantId, awayEntrantId] = [idAt(state.seats[2 * at]), idAt(state.seats[2 * at + 1])];
    const winner = state.winners[at];
    const ready = homeEntrantId !== null && awayEntrantId !== null;
    const forfeited = forfeits.get(at) ?? match.status === 'forfeited';
    const decided = winner === HOME || winner === AWAY;
    const [homeWins, awayWins] = [state.homeWins[at] ?? 0, state.awayWins[at] ?? 0];
    return {
      ...match,
      homeEntrantId,
      awayEntrantId,
      winnerEntrantId: winner === HOME ? homeEntrantId : winner === AWAY ? awayEntrantId : null,
      homeWins: homeWins + awayWins > 0 ? homeWins : null,
      awayWins: homeWins + awayWins > 0 ? awayWins : null,
      status: decided ? (forfeited ? 'forfeited' : 'finished') : ready ? 'ready' : 'open',
    };
  });
}

function sameRow(one: LinkedMatch, other: LinkedMatch | undefined): boolean {
  const shown = (match: LinkedMatch | undefined): string =>
    JSON.stringify([match?.homeEntrantId, match?.awayEntrantId, match?.winnerEntrantId, match?.status]);
  return shown(one) === shown(other);
}
