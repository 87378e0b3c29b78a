import { WHOLE_FILM, type FilmScope } from './film-scope.js';
import { scopeTogether } from './reconcile-scope.js';

const scope = (part: Partial<FilmScope>): FilmScope => ({ ...WHOLE_FILM, ...part });

describe('what charts cover together', () => {
  it.each<[string, FilmScope[], FilmScope]>([
    ['the whole film and a part of it', [WHOLE_FILM, scope({ downs: [3] })], WHOLE_FILM],
    ['one side and the other', [scope({ offense: 'home' }), scope({ offense: 'away' })], WHOLE_FILM],
    ['third downs and fourth', [scope({ downs: [3] }), scope({ downs: [4] })], scope({ downs: [3, 4] })],
    [
      'third downs of one side and of the other',
      [scope({ offense: 'home', downs: [3] }), scope({ offense: 'away', downs: [3] })],
      scope({ downs: [3] }),
    ],
    ['third downs and the second half', [scope({ downs: [3] }), scope({ quarters: [3, 4] })], scope({ downs: [3] })],
    ['all fields and a few of them', [WHOLE_FILM, scope({ fields: ['coverage'] })], WHOLE_FILM],
    [
      'some fields and others',
      [scope({ fields: ['shell'] }), scope({ fields: ['coverage'] })],
      scope({ fields: ['coverage', 'shell'] }),
    ],
    [
      'one field everywhere and all on third downs',
      [scope({ fields: ['coverage'] }), scope({ downs: [3] })],
      scope({ fields: ['coverage'] }),
    ],
    [
      'one side with all fields, the other with some',
      [scope({ offense: 'home' }), scope({ offense: 'away', fields: ['coverage'] })],
      scope({ fields: ['coverage'] }),
    ],
    ['one chart', [scope({ quarters: [3, 4] })], scope({ quarters: [3, 4] })],
  ])('of %s', (_what, scopes, together) => {
    expect(scopeTogether(scopes)).toEqual(together);
  });
});
