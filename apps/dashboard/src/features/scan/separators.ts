/** GS1's field separator. A keyboard has no such key, so hand scanners press one of these in its place. */
export const SEPARATOR = '\u001D'

export function isSeparatorKey(event: { readonly key: string; readonly ctrlKey: boolean }): boolean {
  return event.key === SEPARATOR || event.key === 'F8' || (event.ctrlKey && event.key === ']')
}
