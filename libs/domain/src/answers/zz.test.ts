import { fitOutcome } from './fitted-outcome.js';
import { answerLeague, USUAL_LEAGUE } from './testing/answer-league.js';
import { MixedModelEquations } from '../statistics/mixed-model-equations.js';
it('explores', () => {
  const old = MixedModelEquations.prototype.evaluate;
  const oldS = MixedModelEquations.prototype.slopes;
  let n = 0, te = 0, ts = 0;
  MixedModelEquations.prototype.evaluate = function (v) { n++; const t = performance.now(); const r = old.call(this, v); te += performance.now() - t; return r; };
  MixedModelEquations.prototype.slopes = function (v) { const t = performance.now(); const r = oldS.call(this, v); ts += performance.now() - t; return r; };
  for (let i = 0; i < 12; i++) {
  const l = answerLeague({ ...USUAL_LEAGUE, seed: 1003 + i, spread: 0.2, playsACell: 10 });
  const t = performance.now();
  n = te = ts = 0;
  const f = fitOutcome(l.coded, l.outcome);
  console.log('total', performance.now() - t, n, te, ts, JSON.stringify(f?.variances));
  }
});
