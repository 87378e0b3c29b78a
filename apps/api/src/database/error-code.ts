/** The code of an error of Node or pg. Asked by shape: `instanceof` fails between realms, and tests run in their own. */
export function errorCode(error: unknown): unknown {
  return typeof error === 'object' && error !== null && 'code' in error ? error.code : undefined;
}
