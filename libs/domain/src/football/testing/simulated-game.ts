import type { RandomSource } from '../../statistics/seeded-random.js';
import type { PlaySketch } from './chart-of.js';

type Loose = Record<string, number | string | boolean | readonly string[]>;

/**
 * A game played by the rules and charted without a slip. The ball lies between whole yards, as it does on a field, and
 * the chart rounds what it writes down, as graphics do. Written without a look at the code it tests: it moves a ball and
 * keeps the chains, and knows nothing of what may follow what.
 */
export function simulatedGame(random: RandomSource): PlaySketch[] {
  const plays: Loose[] = [];
  const snapsAQuarter = 16 + Math.floor(random() * 20);
  const chance = (share: number): boolean => random() < share;
  const between = (low: number, high: number): number => low + random() * (high - low);
  const whole = (low: number, high: number): number => Math.floor(between(low, high + 1));

  let quarter = 1;
  let snapsInQuarter = 0;
  let offenseIsHome = chance(0.5);
  let drive = 0;
  let spot = 75; // yards to goal, not rounded
  let down = 1;
  let toGo = 10;
  let isOver = false;

  function record(play: Loose): void {
    plays.push({ quarter, offenseIsHome, drive: Math.max(1, drive), ...play });
    snapsInQuarter += 1;
  }

  function snap(play: Loose): void {
    record({
      down,
      distance: Math.max(1, Math.round(toGo)),
      yardsToGoal: Math.min(99, Math.max(1, Math.round(spot))),
      ...play,
    });
  }

  function newSeries(at: number): void {
    spot = Math.min(99.4, Math.max(0.6, at));
    down = 1;
    toGo = Math.min(10, spot);
  }

  function otherSideBegins(at: number): void {
    offenseIsHome = !offenseIsHome;
    drive += 1;
    newSeries(at);
  }

  function afterTouchdown(scorerIsHome: boolean): void {
    offenseIsHome = scorerIsHome;
    if (quarter > 4) {
      isOver = true;
      return;
    }
    const isKick = chance(0.8);
    const result: Loose = isKick
      ? { playType: 'try kick', snapResult: chance(0.9) ? 'kick-good' : 'kick-missed' }
      : { playType: 'two-point try', snapResult: 'incomplete' };
    if (chance(0.05)) {
      record({ ...result, snapResult: 'no-play', foul: 'offside', foulSide: 'defense', foulAnswer: 'accepted' });
    }
    record({ ...result, ledTo: chance(0.02) ? ['try-returned'] : ['try-good'] });
    kickoff('kickoff');
  }

  /** The side with the ball kicks. */
  function kickoff(playType: 'kickoff' | 'free kick'): void {
    const from = playType === 'kickoff' ? 65 : 80;
    const kick: Loose = { playType, yardsToGoal: from };
    if (endsQuarter()) return;
    const draw = random();
    if (draw < 0.4) {
      record({ ...kick, snapResult: 'touchback', ledTo: [] });
      otherSideBegins(75);
    } else if (draw < 0.8) {
      const kickLength = whole(40, from - 2);
      const returnYards = whole(0, 30);
      record({ ...kick, snapResult: 'returned', kickLength, returnYards, ledTo: [] });
      otherSideBegins(100 - from + kickLength - returnYards);
    } else if (draw < 0.85) {
      record({ ...kick, snapResult: 'returned', ledTo: ['fumble-lost'] });
      drive += 1;
      newSeries(30);
    } else if (draw < 0.9) {
      record({ ...kick, snapResult: 'onside-recovered-by-the-kickers', ledTo: [] });
      drive += 1;
      newSeries(54);
    } else if (draw < 0.93) {
      record({ ...kick, snapResult: 'muffed', ledTo: ['fumble-kept'] });
      otherSideBegins(96);
    } else if (draw < 0.96) {
      record({ ...kick, snapResult: 'returned', ledTo: ['touchdown-defense-or-return'] });
      drive += 1;
      afterTouchdown(!offenseIsHome);
    } else {
      record({ ...kick, snapResult: 'no-play', foul: 'offside', foulSide: 'offense', foulAnswer: 'accepted' });
      kickoff(playType);
    }
  }

  /** Moves the ball for a foul, never more than half the way; says how far. */
  function penalize(side: 'offense' | 'defense', yards: number): number {
    const room = side === 'offense' ? 100 - spot : spot;
    const moved = Math.min(yards, room / 2);
    spot += side === 'offense' ? moved : -moved;
    return moved;
  }

  function foulPlay(): void {
    const foul = (name: string, side: 'offense' | 'defense', yards: number): Loose => ({
      foul: name,
      foulSide: side,
      foulYards: Math.round(Math.min(yards, (side === 'offense' ? 100 - spot : spot) / 2)),
      foulAnswer: 'accepted',
      ledTo: [],
    });
    const dead: Loose = { snapResult: 'no-play', replayed: 'yes' };
    switch (whole(0, 8)) {
      case 0:
        snap({ ...foul('false-start', 'offense', 5), ...dead, callFamily: 'no-call', foulTiming: 'before the snap' });
        toGo += penalize('offense', 5);
        return;
      case 1: {
        const before = spot;
        const charted = foul('offside', 'defense', 5);
        const gainsFirst = Math.min(5, spot / 2) >= toGo;
        snap({ ...charted, ...dead, ledTo: gainsFirst ? ['first-down-gained'] : [] });
        penalize('defense', 5);
        if (gainsFirst) newSeries(spot);
        else toGo -= before - spot;
        return;
      }
      case 2:
        snap({ ...foul('holding-by-the-offense', 'offense', 10), ...dead });
        toGo += penalize('offense', 10);
        return;
      case 3: {
        const yards = whole(1, Math.max(1, Math.floor(spot - 1)));
        if (yards >= spot - 1) return;
        snap({
          ...foul('pass-interference-by-the-defense', 'defense', yards),
          foulYards: yards,
          snapResult: 'no-play',
          replayed: 'no',
          ledTo: ['first-down-gained'],
        });
        newSeries(spot - yards);
        return;
      }
      case 4:
        snap({ ...foul('holding-by-the-defense', 'defense', 5), ...dead, ledTo: ['first-down-gained'] });
        penalize('defense', 5);
        newSeries(spot);
        return;
      case 5:
        snap({ snapResult: 'complete', yardsGained: 12, foulAnswer: 'offset', foul: 'holding-by-the-offense' });
        return;
      case 6: {
        const gain = between(1, 8);
        if (gain >= spot - 2) return;
        const before = spot;
        spot -= gain;
        const charted = foul('roughing', 'defense', 15);
        const from = spot;
        spot = before;
        snap({
          ...charted,
          snapResult: 'complete',
          yardsGained: Math.round(gain),
          replayed: 'no',
          ledTo: ['first-down-gained'],
        });
        spot = from;
        penalize('defense', 15);
        newSeries(spot);
        return;
      }
      case 7:
        snap({
          ...foul('intentional-grounding', 'offense', 10),
          snapResult: 'incomplete',
          yardsGained: 0,
          replayed: 'no',
          ledTo: down === 4 ? ['turnover-on-downs'] : [],
        });
        toGo += penalize('offense', 10);
        nextDown();
        return;
      default:
        play({ foul: 'holding-by-the-defense', foulSide: 'defense', foulYards: 5, foulAnswer: 'declined' });
    }
  }

  function nextDown(): void {
    if (down === 4) otherSideBegins(100 - spot);
    else down += 1;
  }

  function play(extras: Loose = {}): void {
    const draw = random();
    if (draw < 0.03) {
      const isReturnedForScore = chance(0.2);
      snap({
        ...extras,
        snapResult: 'intercepted',
        ledTo: isReturnedForScore ? ['touchdown-defense-or-return'] : [],
      });
      if (isReturnedForScore) {
        drive += 1;
        afterTouchdown(!offenseIsHome);
      } else otherSideBegins(between(20, 95));
      return;
    }
    if (draw < 0.3) {
      const isSpike = chance(0.1);
      const fails = down === 4;
      snap({
        ...extras,
        playType: isSpike ? 'spike' : 'scrimmage',
        snapResult: isSpike ? 'spiked' : 'dropped',
        ...(chance(0.5) ? { yardsGained: 0 } : {}),
        ledTo: fails ? ['turnover-on-downs'] : [],
      });
      nextDown();
      return;
    }
    const isSack = draw < 0.36;
    const isKneel = draw > 0.98;
    const isLong = chance(0.08);
    const gain = isKneel ? -1 : isSack ? between(-12, 0) : isLong ? between(15, 80) : between(-3, 12);
    const snapResult = isKneel ? 'knelt' : isSack ? 'sacked' : chance(0.5) ? 'rushed' : 'complete';
    const charted: Loose = { ...extras, snapResult, playType: isKneel ? 'kneel' : 'scrimmage' };
    if (gain >= spot) {
      snap({ ...charted, yardsGained: Math.round(spot), ledTo: ['touchdown-offense'] });
      afterTouchdown(offenseIsHome);
      return;
    }
    if (spot - gain >= 100) {
      snap({ ...charted, yardsGained: Math.round(spot) - 100, ledTo: ['safety-scored'] });
      if (quarter > 4) isOver = true;
      else kickoff('free kick');
      return;
    }
    const isFirst = gain >= toGo;
    if (chance(0.02)) {
      snap({ ...charted, yardsGained: Math.round(gain), ledTo: ['fumble-lost'] });
      otherSideBegins(between(10, 95));
      return;
    }
    const fails = down === 4 && !isFirst;
    const ledTo = [...(isFirst ? ['first-down-gained'] : []), ...(fails ? ['turnover-on-downs'] : [])];
    snap({ ...charted, yardsGained: Math.round(gain), ledTo });
    spot -= gain;
    toGo -= gain;
    if (isFirst) newSeries(spot);
    else nextDown();
  }

  function punt(): void {
    const draw = random();
    const charted: Loose = { playType: 'punt' };
    const kickLength = whole(25, Math.max(25, Math.min(55, Math.floor(spot) - 2)));
    const at = Math.round(spot) - kickLength;
    if (draw < 0.5 && at > 1) {
      const returnYards = whole(0, Math.min(20, 90 - at));
      snap({ ...charted, snapResult: 'returned', kickLength, returnYards, ledTo: [] });
      otherSideBegins(100 - at - returnYards);
    } else if (draw < 0.7 && at > 1) {
      snap({ ...charted, snapResult: chance(0.5) ? 'fair-catch' : 'downed', kickLength, ledTo: [] });
      otherSideBegins(100 - at);
    } else if (draw < 0.8) {
      snap({ ...charted, snapResult: 'touchback', ledTo: [] });
      otherSideBegins(80);
    } else if (draw < 0.85) {
      snap({ ...charted, snapResult: 'muffed', ledTo: ['fumble-lost'] });
      drive += 1;
      newSeries(between(5, 60));
    } else if (draw < 0.9) {
      snap({ ...charted, snapResult: 'kick-blocked', ledTo: [] });
      otherSideBegins(between(20, 60));
    } else if (draw < 0.94) {
      snap({ ...charted, snapResult: 'returned', ledTo: ['touchdown-defense-or-return'] });
      drive += 1;
      afterTouchdown(!offenseIsHome);
    } else {
      const gain = between(-3, 15);
      if (gain >= spot || spot - gain >= 99) return;
      const isFirst = gain >= toGo;
      snap({
        ...charted,
        fake: 'yes',
        snapResult: 'rushed',
        yardsGained: Math.round(gain),
        ledTo: [isFirst ? 'first-down-gained' : 'turnover-on-downs'],
      });
      spot -= gain;
      if (isFirst) newSeries(spot);
      else otherSideBegins(100 - spot);
    }
  }

  function fieldGoal(): void {
    const draw = random();
    const charted: Loose = { playType: 'field goal', ledTo: [] };
    if (draw < 0.8) {
      snap({ ...charted, snapResult: 'kick-good' });
      if (quarter > 4) isOver = true;
      else kickoff('kickoff');
    } else {
      snap({ ...charted, snapResult: draw < 0.95 ? 'kick-missed' : 'kick-blocked' });
      otherSideBegins(Math.min(80, 100 - spot - 7));
    }
  }

  function stillPlaying(): boolean {
    return !isOver;
  }

  /** Quarters end by number of snaps. A half, and regulation, begins with a kickoff by either side. */
  function endsQuarter(): boolean {
    if (snapsInQuarter < snapsAQuarter || isOver) return isOver;
    if (quarter === 4 && chance(0.5)) isOver = true;
    if (quarter > 4) isOver = true;
    if (isOver) return true;
    snapsInQuarter = 0;
    quarter += 1;
    if (quarter !== 3 && quarter !== 5) return false;
    if (chance(0.5)) {
      const last = plays.at(-1);
      if (last !== undefined) {
        const ledTo = Array.isArray(last['ledTo']) ? last['ledTo'].filter((name) => typeof name === 'string') : [];
        last['ledTo'] = [...ledTo, 'end-of-half'];
      }
    }
    offenseIsHome = chance(0.5);
    kickoff('kickoff');
    return true;
  }

  function nextSnap(): void {
    if (endsQuarter()) return;
    if (chance(0.1)) foulPlay();
    else if (down < 4) play();
    else if (spot < 38 && chance(0.7)) fieldGoal();
    else if (spot > 40 && chance(0.8)) punt();
    else play();
  }

  kickoff('kickoff');
  while (stillPlaying()) nextSnap();
  return plays;
}
