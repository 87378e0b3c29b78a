/** An object of JSON, as opposed to an array, a number, a text or null. */
export function isPlainObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/**
 * JSON merge patch: members that the patch names are replaced, null removes one, objects are merged member by member,
 * and everything else (arrays too) is replaced whole.
 *
 * @see RFC 7396, section 2
 */
export function mergePatch(target: unknown, patch: unknown): unknown {
  if (!isPlainObject(patch)) return patch;
  const merged = new Map<string, unknown>(Object.entries(isPlainObject(target) ? target : {}));
  for (const [name, value] of Object.entries(patch)) {
    if (value === null) merged.delete(name);
    else merged.set(name, mergePatch(merged.get(name), value));
  }
  return Object.fromEntries(merged);
}
