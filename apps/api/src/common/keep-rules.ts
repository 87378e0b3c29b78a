import { getMetadataStorage, type MetadataStorage } from 'class-validator';

type RulesOf = MetadataStorage['getTargetValidationMetadatas'];

const storage = getMetadataStorage();
const gather: RulesOf = storage.getTargetValidationMetadatas.bind(storage);
const kept = new Map<unknown, ReturnType<RulesOf>>();

const rulesOf: RulesOf = (type, schema, always, strictGroups, groups) => {
  // Nothing here is checked by schemas or groups.
  if (schema || always || strictGroups || groups !== undefined) {
    return gather(type, schema, always, strictGroups, groups);
  }
  let rules = kept.get(type);
  if (rules === undefined) kept.set(type, (rules = gather(type, schema, always, strictGroups, groups)));
  return rules;
};

/**
 * Has class-validator look up the rules of a class once: else it gathers them from those of all classes with every request.
 * Rules are decorators, so a class has all of its own before anything can be checked by it.
 */
export function keepRules(): void {
  storage.getTargetValidationMetadatas = rulesOf;
}
