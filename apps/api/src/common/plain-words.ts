/** What class-validator says of a rule, and what a person would: kinds of value first, then their limits. */
const PLAIN: readonly (readonly [said: RegExp, plain: string])[] = [
  [/^nested property must be either object or array$/, 'an object, or an array of them'],
  [/^must be a number conforming to the specified constraints$/, 'a number'],
  [/^must be an integer number$/, 'a whole number'],
  [/^must be one of the following values: (.*)$/, 'one of: $1'],
  [/^must be a string$/, 'text'],
  [/^must be a boolean value$/, 'true or false'],
  [/^must be (?!longer|shorter)/, ''],
  [/^must match (.*) regular expression$/, 'text that fits $1'],
  [/^must not be less than (.*)$/, 'at least $1'],
  [/^must not be greater than (.*)$/, 'at most $1'],
  [/^must be longer than or equal to (\d+) and shorter than or equal to (\d+) characters$/, '$1 to $2 characters'],
  [/^must be longer than or equal to (\d+) characters$/, '$1 or more characters'],
  [/^must be shorter than or equal to (\d+) characters$/, 'at most $1 characters'],
  [/^must contain at least (\d+) elements$/, '$1 or more elements'],
  [/^must contain no more than (\d+) elements$/, 'at most $1 elements'],
  [/^All .*'s elements must be unique$/, 'no element twice'],
];

const EACH = 'each value in ';

/**
 * The same rules in plain words, such as "a number, at least 0.5". Words of our own rules stay as they are, and stand
 * last.
 *
 * @param messages - without the name of the property
 */
export function plainWords(messages: readonly string[]): string {
  return messages
    .map((message) => {
      const [each, rule] = message.startsWith(EACH) ? ['each ', message.slice(EACH.length)] : ['', message];
      const place = PLAIN.findIndex(([said]) => said.test(rule));
      const found = PLAIN[place];
      return found === undefined
        ? { place: PLAIN.length, words: message }
        : { place, words: each + rule.replace(...found) };
    })
    .sort((one, other) => one.place - other.place)
    .map(({ words }) => words)
    .join(', ');
}
