import type { DefenseCall, FieldValues, Look, OffenseCall } from './snap.js';

/** Calls and looks as the fields they are charted in. */

export function lookValues(look: Look): FieldValues {
  return {
    tempo: look.tempo,
    offensivePersonnel: look.personnel,
    formation: look.formation,
    strength: look.strength,
    backfield: look.backfield,
    motion: look.motion,
    ...(look.motionBy === undefined ? {} : { motionBy: look.motionBy }),
  };
}

export function callValues(call: OffenseCall): FieldValues {
  const optional: FieldValues = {};
  if (call.called !== undefined) optional.called = call.called;
  if (call.runPassOptionTag !== undefined) optional.runPassOptionTag = call.runPassOptionTag;
  if (call.designedGap !== undefined) optional.designedGap = call.designedGap;
  if (call.designedSide !== undefined) optional.designedSide = call.designedSide;
  return {
    callFamily: call.callFamily,
    concept: call.concept,
    playFake: call.playFake ? 'yes' : 'no',
    runPassOption: call.callFamily === 'run-pass option' ? 'yes' : 'no',
    ...optional,
  };
}

export function defenseValues(answer: DefenseCall): FieldValues {
  const optional: FieldValues = {};
  if (answer.pressurePath !== undefined) optional.pressurePath = answer.pressurePath;
  if (answer.pressureSide !== undefined) optional.pressureSide = answer.pressureSide;
  if (answer.pressureSource !== undefined) optional.pressureSource = answer.pressureSource;
  if (answer.pressureShown !== undefined) optional.pressureShown = answer.pressureShown;
  return {
    defensivePersonnel: answer.personnel,
    front: answer.front,
    alignmentAdjustments: answer.alignment,
    shell: answer.shell,
    boxCount: answer.boxCount,
    manualDefenderStart: answer.manualStart,
    coverage: answer.coverage,
    rushers: answer.rushers,
    pressure: answer.pressure,
    manualDefenderAction: answer.manualAction,
    ...optional,
  };
}
