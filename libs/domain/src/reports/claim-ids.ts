/** `['defense', '3rd and 7-10', 'term:70']` -> `defense/3rd-and-7-10/term:70`: unique where the parts are, and stable. */
export function claimId(parts: readonly string[]): string {
  return parts.map((part) => part.replaceAll('/', '-').replaceAll(' ', '-')).join('/');
}
