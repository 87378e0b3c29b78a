import type { NextCallReasonResponse, NextCallResponse } from './next-call.dto.js';
import { LIVE_CAUTION, nextCallJson } from './next-call-response.js';

const reason = (of: string): NextCallReasonResponse => ({
  ...{ words: `${of}: 5 of "7"`, of, count: 5, known: 7, games: 2, probability: 0.612_345 },
});

const ANSWER: NextCallResponse = {
  ...{ playerId: '00000000-0000-4000-8000-000000000000', handle: 'Moss "back"', side: 'offense', target: 'run-pass' },
  ...{ answeredBy: 'model', words: 'run 61 %', restsOn: 'Moss on 3rd and 7-10', known: 7, games: 2, warning: null },
  calls: [
    { call: 'run', probability: 0.6, fieldShare: 0.5, reasons: [reason('field'), reason('together')] },
    { call: 'pass', probability: 0.4, fieldShare: 0.5, reasons: [] },
  ],
  plays: [],
  caution: LIVE_CAUTION,
};

describe('an answer as JSON', () => {
  it('says what the answer does, also when parts of it come back', () => {
    expect(JSON.parse(nextCallJson(ANSWER))).toEqual(ANSWER);
    const again = { ...ANSWER, handle: 'Heron', calls: ANSWER.calls.slice(0, 1) };
    expect(JSON.parse(nextCallJson(again))).toEqual(again);
  });
});
