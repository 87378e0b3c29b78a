/**
 * The element at an index the caller has shown to exist; a wrong index is a defect of the caller
 * and ends in an error instead of an `undefined` that turns into NaN further on.
 *
 * @throws RangeError when there is no such element
 */
export function elementAt<Element>(values: ArrayLike<Element>, index: number): Element {
  const element = values[index];
  if (element === undefined) throw new RangeError(`no element ${index} among ${values.length}`);
  return element;
}
