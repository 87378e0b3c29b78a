/** Browsers by what they say of themselves, the more particular first: most of them also claim to be another. */
const BROWSERS: readonly (readonly [RegExp, string])[] = [
  [/\bEdg\w*\//, 'Edge'],
  [/\b(Firefox|FxiOS)\//, 'Firefox'],
  [/(Chrome|CriOS)\//, 'Chrome'],
  [/\bSafari\//, 'Safari'],
];
const SYSTEMS: readonly (readonly [RegExp, string])[] = [
  [/iPhone|iPad/, 'iOS'],
  [/Android/, 'Android'],
  [/Windows/, 'Windows'],
  [/Mac OS X/, 'macOS'],
  [/CrOS/, 'ChromeOS'],
  [/Linux/, 'Linux'],
];
const MOST_WORDS = 3;
const MOST_LETTERS = 40;

/** The browser in a few words, as a person would call it; of one that is not known the first words it says. */
export function browserName(userAgent: string | null): string {
  if (userAgent === null) return 'unknown browser';
  const [browser, system] = [BROWSERS, SYSTEMS].map((known) => known.find(([mark]) => mark.test(userAgent))?.[1]);
  if (browser !== undefined) return system === undefined ? browser : `${browser} on ${system}`;
  return userAgent.trim().split(/\s+/).slice(0, MOST_WORDS).join(' ').slice(0, MOST_LETTERS);
}
