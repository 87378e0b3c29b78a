import { seededRandom, type RandomSource } from '../../statistics/seeded-random.js';
import { drawHabits, interaction, jointLook, unevenBlank, type Habits } from './interacting-calls.js';

// Test support: a league whose calls follow known probabilities. Its shape (run share by down and distance, lead, clock
// and spot; what formation, backfield, people and motion give away) is common knowledge of the game put into round
// numbers, from memory; it is fitted to nothing. Every seed draws its own sizes of all effects.

export interface SituationalLeagueSettings {
  readonly seed: number;
  readonly teams: number;
  readonly games: number;
  /** Share of cells left blank, drawn anew for each field and game around this mean. */
  readonly blank: number;
  /**
   * Games of a season, for a league whose calls hang on several things at once (`interacting-calls`), whose formations are
   * left blank by some teams more than by others, whose rate of passes moves from season to season, and whose teams change
   * who calls between seasons. Left out: effects that add up, habits that drift.
   */
  readonly seasonGames?: number;
}

/** A snap as a row of a sheet, and what it was drawn from. */
export interface SimulatedSnap {
  readonly row: Readonly<Record<string, string>>;
  /** Probability of a pass given everything that happened before the snap, and the caller; NaN on kicks. */
  readonly passBefore: number;
  /** The same given the look too. */
  readonly passSeen: number;
}

const FORMATIONS = ['two by two wide', 'three by one wide', 'twins', 'bunch', 'doubles tight', 'heavy'];
const BACKFIELDS = ['under center one back', 'shotgun', 'pistol'];
const PERSONNEL = ['11 personnel', '12 personnel', '10 personnel', '21 personnel', '13 personnel'];
const MOTIONS = ['none', 'jet', 'across', 'short in', 'orbit'];

interface Team {
  /** What hangs on several things at once; null in a league of effects that add up. */
  readonly habits: Habits | null;
  readonly offense: number;
  readonly defense: number;
  readonly early: number;
  readonly late: number;
  readonly distance: number;
  readonly order: number;
  drift: number;
  /** Log odds of each look, and how much more of it on passes: [look][0 or 1]. */
  readonly looks: readonly (readonly (readonly [number, number])[])[];
}

interface Rules {
  passing: number;
  readonly spread: number;
  readonly plan: number;
  readonly drift: number;
  readonly signal: number;
  readonly repeat: number;
}

/** Share of the teams whose caller leaves between two seasons. */
const NEW_CALLER = 0.35;

interface State {
  quarter: number;
  clock: number;
  offense: 0 | 1;
  down: number;
  distance: number;
  spot: number;
  readonly points: [number, number];
  readonly timeouts: [number, number];
  drive: number;
  previous: readonly [call: number, gain: number, result: string] | null;
}

/** A league's snaps in the order of play, kicks among them. */
export function* situationalLeague(settings: SituationalLeagueSettings): Generator<SimulatedSnap> {
  const random = seededRandom(settings.seed);
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const between = (low: number, high: number): number => low + random() * (high - low);
  const rules: Rules = {
    passing: between(-0.1, 0.25),
    spread: between(0.15, 0.35),
    plan: between(0.1, 0.25),
    drift: between(0.02, 0.06),
    signal: between(0.5, 0.8),
    repeat: between(0.1, 0.3),
  };
  const base = [FORMATIONS, BACKFIELDS, PERSONNEL, MOTIONS].map((words) =>
    words.map((_, place) => [1.2 - 0.5 * place + 0.3 * normal(), rules.signal * normal()] as const),
  );
  const newTeam = (): Team => ({
    habits:
      settings.seasonGames === undefined ? null : drawHabits(FORMATIONS.length * PERSONNEL.length, normal, random),
    offense: rules.spread * normal(),
    defense: 0.4 * rules.spread * normal(),
    early: 0.6 * rules.spread * normal(),
    late: 0.6 * rules.spread * normal(),
    distance: 0.03 * normal(),
    order: rules.repeat * normal(),
    drift: 0,
    looks: base.map((words) => words.map(([log, by]) => [log + 0.4 * normal(), by + 0.35 * normal()] as const)),
  });
  const teams = Array.from({ length: settings.teams }, newTeam);
  for (let game = 0; game < settings.games; game += 1) {
    if (settings.seasonGames !== undefined && game > 0 && game % settings.seasonGames === 0) {
      rules.passing += 0.02 + 0.05 * normal();
      for (let team = 0; team < teams.length; team += 1) if (random() < NEW_CALLER) teams[team] = newTeam();
    }
    const home = Math.floor(random() * settings.teams);
    const away = (home + 1 + Math.floor(random() * (settings.teams - 1))) % settings.teams;
    for (const team of teams) team.drift = 0.99 * team.drift + rules.drift * normal();
    yield* simulateGame(game, [home, away], teams, rules, settings.blank, random, normal);
  }
}

function* simulateGame(
  game: number,
  pair: readonly [number, number],
  teams: readonly Team[],
  rules: Rules,
  blank: number,
  random: RandomSource,
  normal: () => number,
): Generator<SimulatedSnap> {
  const plans = [rules.plan * normal(), rules.plan * normal()] as const;
  const blanks = new Map<string, number>();
  const state: State = {
    quarter: 1,
    clock: 900,
    offense: random() < 0.5 ? 0 : 1,
    down: 1,
    distance: 10,
    spot: 75,
    points: [0, 0],
    timeouts: [3, 3],
    drive: 1,
    previous: null,
  };
  let order = 0;
  const row = (playType: string, more: Record<string, string>): Record<string, string> => {
    order += 1;
    const own = state.offense;
    const other = own === 0 ? 1 : 0;
    const cells: Record<string, string> = {
      quarter: String(state.quarter),
      clockSeconds: String(Math.round(state.clock)),
      offenseTimeouts: String(state.timeouts[own]),
      defenseTimeouts: String(state.timeouts[other]),
      scoreDifference: String(state.points[own] - state.points[other]),
      drive: String(Math.min(99, state.drive)),
      ...more,
    };
    const kept: Record<string, string> = {};
    for (const [name, cell] of Object.entries(cells)) {
      let share = blanks.get(name);
      if (share === undefined)
        blanks.set(name, (share = random() < 0.3 ? Math.min(1, 3 * blank * random()) : blank / 3));
      const isNeeded = name === 'called' || name === 'down' || name === 'distance';
      const uneven = unevenBlank(name, teams[pair[own]]?.habits ?? null, state.down);
      kept[name] = !isNeeded && random() < share + uneven ? '' : cell;
    }
    return {
      game: `game-${String(game + 1).padStart(5, '0')}`,
      order: String(order),
      offense: `team-${pair[state.offense]}`,
      playType,
      ...kept,
    };
  };
  const turnOver = (spot: number): void => {
    state.offense = state.offense === 0 ? 1 : 0;
    Object.assign(state, { down: 1, spot: Math.min(99, Math.max(1, spot)), drive: state.drive + 1, previous: null });
    state.distance = Math.min(10, state.spot);
  };
  const runClock = (seconds: number): boolean => {
    state.clock -= seconds;
    if (state.clock > 0) return false;
    state.quarter += 1;
    state.clock = 900;
    if (state.quarter === 3) {
      state.timeouts.fill(3);
      turnOver(75);
    }
    return state.quarter > 4;
  };

  for (;;) {
    const team = teams[pair[state.offense]];
    const other = state.offense === 0 ? 1 : 0;
    const defense = teams[pair[other]];
    if (team === undefined || defense === undefined) return;
    const lead = state.points[state.offense] - state.points[other];
    const left = (4 - state.quarter) * 900 + state.clock;
    const situation = { down: String(state.down), distance: String(state.distance), yardsToGoal: String(state.spot) };
    const desperate = state.quarter === 4 && lead < 0 && left < 300;
    if (state.down === 4 && !(desperate || (state.distance <= 2 && state.spot < 60 && random() < 0.5))) {
      const isGoalKick = state.spot <= 37;
      yield { row: row(isGoalKick ? 'field goal' : 'punt', situation), passBefore: Number.NaN, passSeen: Number.NaN };
      if (isGoalKick && random() < 0.95 - 0.012 * state.spot) {
        state.points[state.offense] += 3;
        turnOver(75);
      } else turnOver(isGoalKick ? 100 - state.spot : Math.min(80, 100 - state.spot + 42));
      if (runClock(8)) return;
      continue;
    }
    if (state.quarter === 4 && lead > 0 && left < 40 * (5 - state.down)) {
      yield { row: row('kneel', situation), passBefore: Number.NaN, passSeen: Number.NaN };
      if (runClock(40)) return;
      state.down = Math.min(4, state.down + 1);
      continue;
    }
    const several =
      team.habits === null
        ? 0
        : interaction({ ...state, lead, left, timeouts: state.timeouts[state.offense] }, team.habits);
    const logit = passLogit(state, lead, left, team, rules) + plans[state.offense] + defense.defense + several;
    const passBefore = 1 / (1 + Math.exp(-logit));
    const isPass = random() < passBefore;
    const [look, evidence] = drawLook(state, team, isPass, random);
    const passSeen = 1 / (1 + Math.exp(-(logit + evidence)));
    const incomplete = isPass && random() < 0.36;
    const isSack = isPass && !incomplete && random() < 0.1;
    const gainDrawn = isSack ? -7 : incomplete ? 0 : isPass ? 10 * -Math.log(1 - random()) : 4.3 + 5 * normal();
    const gain = Math.min(state.spot, Math.max(-12, Math.round(gainDrawn)));
    const isLost = random() < (isPass ? 0.022 : 0.009);
    const result = isSack
      ? 'sacked'
      : incomplete
        ? 'incomplete'
        : isPass
          ? isLost
            ? 'intercepted'
            : 'complete'
          : 'rushed';
    yield {
      row: row('scrimmage', {
        ...situation,
        ...look,
        called: isPass ? 'pass' : 'run',
        snapResult: result,
        yardsGained: String(gain),
        coverage: random() < 0.5 ? 'cover 3' : 'cover 1',
        targetDepth: isPass ? (gain > 12 ? 'deep' : 'short') : '',
      }),
      passBefore,
      passSeen,
    };
    const hurry = (state.quarter === 2 && state.clock < 120) || (state.quarter === 4 && lead < 0 && left < 300);
    if (hurry && random() < 0.3 && state.timeouts[state.offense] > 0) state.timeouts[state.offense] -= 1;
    const isOver = runClock(incomplete ? 6 : hurry ? 16 : lead > 0 && left < 400 ? 42 : 30 + 8 * random());
    state.previous = [isPass ? 1 : 0, gain, result];
    if (isOver) return;
    if (gain >= state.spot) {
      state.points[state.offense] += 7;
      turnOver(75);
    } else if (isLost || (state.down === 4 && gain < state.distance)) turnOver(100 - state.spot + gain);
    else {
      state.spot = Math.min(99, state.spot - gain);
      if (gain >= state.distance) Object.assign(state, { down: 1, distance: Math.min(10, state.spot) });
      else Object.assign(state, { down: state.down + 1, distance: Math.min(40, state.distance - gain) });
    }
  }
}

function passLogit(state: State, lead: number, left: number, team: Team, rules: Rules): number {
  const { down, distance, spot, quarter, clock, previous } = state;
  const early = [-0.55 + 0.05 * (distance - 10), -1.1 + 0.17 * Math.min(distance, 12)];
  const third = distance <= 1 ? -1.3 : distance === 2 ? -0.2 : 0.9 + 0.32 * Math.min(distance - 3, 6);
  let logit = (down <= 2 ? (early[down - 1] ?? 0) + team.early : third + team.distance * distance) + rules.passing;
  if (spot <= 3) logit -= 0.8;
  else if (spot <= 10) logit -= 0.15;
  if (spot >= 95) logit -= 0.5;
  const elapsed = 1 - left / 3600;
  logit -= (1.5 * elapsed ** 3 + 0.15) * Math.tanh(lead / 9) * (1 + team.late);
  if (quarter === 4 && lead > 0 && left < 300) logit -= down === 3 ? 1.4 : 0.9;
  if (quarter === 4 && lead < 0 && left < 300) logit += lead < -8 || left < 150 ? 1.9 : 1.1;
  if (quarter === 2 && clock < 120 && spot < 85) logit += lead > 10 ? 0.7 : 1.4;
  if (previous !== null) {
    const [call, gain, result] = previous;
    logit += team.order * (call === 1 ? 1 : -1);
    if (call === 0 && gain <= 1) logit += 0.2;
    if (result === 'incomplete') logit -= 0.25;
    if (result === 'sacked') logit -= 0.3;
    if (gain >= 20) logit -= 0.2;
  }
  return logit + team.offense + team.drift;
}

/** The look, and the log likelihood ratio of a pass that it holds. */
function drawLook(
  state: State,
  team: Team,
  isPass: boolean,
  random: RandomSource,
): readonly [Record<string, string>, number] {
  const long = state.down >= 3 && state.distance >= 5 ? 1.2 : 0;
  const short = state.distance <= 2 || state.spot <= 3 ? 1.1 : 0;
  let evidence = 0;
  const joint = team.habits === null ? null : jointLook(team.habits, state, isPass, random);
  if (joint !== null) evidence += joint.evidence;
  const words = [FORMATIONS, BACKFIELDS, PERSONNEL, MOTIONS].map((names, look) => {
    if (joint !== null && look === 0) return names[Math.floor(joint.cell / PERSONNEL.length)] ?? '';
    if (joint !== null && look === 2) return names[joint.cell % PERSONNEL.length] ?? '';
    const logs = [0, 1].map((call) => {
      const odds = names.map((_, place) => {
        const [log, by] = team.looks[look]?.[place] ?? [0, 0];
        const bySituation = look === 1 ? (place === 1 ? long : place === 0 ? short : 0) : 0;
        const people = look === 2 ? (place === 2 ? long * 0.8 : place >= 3 ? short : 0) : 0;
        return Math.exp(log + (call - 0.5) * by + bySituation + people);
      });
      const total = odds.reduce((sum, value) => sum + value, 0);
      return odds.map((value) => value / total);
    });
    const drawn = draw(logs[isPass ? 1 : 0] ?? [], random);
    evidence += Math.log((logs[1]?.[drawn] ?? 1) / (logs[0]?.[drawn] ?? 1));
    return names[drawn] ?? '';
  });
  const [formation = '', backfield = '', offensivePersonnel = '', motion = ''] = words;
  return [{ formation, backfield, offensivePersonnel, motion }, evidence];
}

function draw(shares: readonly number[], random: RandomSource): number {
  let rest = random();
  for (let place = 0; place + 1 < shares.length; place += 1) {
    rest -= shares[place] ?? 0;
    if (rest < 0) return place;
  }
  return shares.length - 1;
}
