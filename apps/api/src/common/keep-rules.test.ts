import { getMetadataStorage, IsInt, IsString, Max, validateSync } from 'class-validator';
import { keepRules } from './keep-rules.js';

class Named {
  @IsString() name: unknown = 'Mossback';
}

class Numbered extends Named {
  @IsInt() @Max(99) number: unknown = 7;
}

/** What a class asks of its fields, as text. */
function rules(type: unknown): string[] {
  const found = getMetadataStorage().getTargetValidationMetadatas(type as () => void, '', false, false);
  return found.map(({ propertyName, name, constraints }) => `${propertyName} ${name} ${String(constraints)}`);
}

it('the rules of a class are the same once they are kept: its own and those that it inherits', () => {
  const before = [rules(Named), rules(Numbered)];
  expect(before[1]?.toSorted()).toEqual(['name isString undefined', 'number isInt undefined', 'number max 99']);
  keepRules();
  for (const time of ['gathered', 'kept']) {
    expect([time, rules(Named), rules(Numbered)]).toEqual([time, ...before]);
    const wrong = Object.assign(new Numbered(), { name: 3, number: 100.5 });
    expect(validateSync(wrong).map(({ property }) => property)).toEqual(['number', 'name']);
    expect(validateSync(new Numbered())).toEqual([]);
  }
});
