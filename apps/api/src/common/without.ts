/** The object without some of its members, which is how a resource is told apart from what only the service says. */
export function without<Row extends object, Name extends keyof Row>(
  row: Row,
  ...names: readonly Name[]
): Omit<Row, Name> {
  const left: Partial<Row> = { ...row };
  for (const name of names) Reflect.deleteProperty(left, name);
  // Exactly the other members are left, which the compiler cannot follow through a loop.
  return left as Omit<Row, Name>;
}
