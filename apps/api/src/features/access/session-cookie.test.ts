import { sameSecret } from './session-cookie.js';

it('takes two secrets for the same only when every byte is, whatever their length', () => {
  expect(sameSecret('', '')).toBe(true);
  expect(sameSecret('rbs_lantern', 'rbs_lantern')).toBe(true);
  for (const other of ['rbs_lanterm', 'Rbs_lantern', 'rbs_lantern ', 'rbs_lanter', '', 'rbs_länternn']) {
    expect(sameSecret('rbs_lantern', other)).toBe(false);
    expect(sameSecret(other, 'rbs_lantern')).toBe(false);
  }
  // As many letters, and not as many bytes: compared as bytes, which timingSafeEqual needs to be as many.
  expect(sameSecret('é', 'e')).toBe(false);
});
