const UNITS = /(\d) (?=(?:mL|fl oz|mm|in|m|ft|°[CF]|%|min|h|d|kB|[ap]\. ?m\.|[ap]m)(?![\p{L}\d]))/gu
const HALF_OF_DAY = /([ap]\.) (m\.)(\.(?!\.))?/g

/**
 * A value and its unit on one line, for whatever breaks lines: a page on the screen, a sheet of paper. In an answer, which
 * programs read, a plain space stands between them.
 */
export function together(text: string): string {
  // The stop of an abbreviation ends the sentence too.
  return text.replaceAll(UNITS, '$1\u00A0').replaceAll(HALF_OF_DAY, '$1\u00A0$2')
}
