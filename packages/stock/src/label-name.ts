/** Width of a text at a type size, in the unit of `widthOf`'s caller (points on a label). */
export type Measure = (text: string, size: number) => number

export interface NameSpace {
  readonly width: number
  /** Type sizes that are tried in this order, largest first. */
  readonly sizes: readonly number[]
  readonly maxLines: number
}

export interface FittedName {
  readonly size: number
  readonly lines: readonly string[]
}

/** A size below the smallest wish, where nothing else tells two names apart. */
const SHRINK = 0.9

/**
 * A product's name on a label, so that it is told from each of `others`: whole and wrapped where it fits at one of the
 * sizes, else with its middle left out, if no other name would read the same, else whole in smaller type. The end stays,
 * since the names of one family differ there.
 *
 * @throws {RangeError} For a space without width, lines or sizes.
 */
export function fitName(
  name: string,
  others: readonly string[],
  { width, sizes, maxLines }: NameSpace,
  measure: Measure,
): FittedName {
  const smallest = sizes.at(-1)
  if (!(width > 0 && maxLines >= 1) || smallest === undefined)
    throw new RangeError('a name needs width, a line and a size')
  for (const size of sizes) {
    const lines = wrapped(name, width, (text) => measure(text, size))
    if (lines.length <= maxLines) return { size, lines }
  }
  const rivals = others.filter((other) => other !== name)
  for (const { text, head, tail } of shortened(name)) {
    const lines = wrapped(text, width, (part) => measure(part, smallest))
    if (lines.length > maxLines) continue
    if (rivals.some((other) => bare(other).startsWith(bare(head)) && bare(other).endsWith(bare(tail))))
      continue
    return { size: smallest, lines }
  }
  let size = smallest
  for (;;) {
    size *= SHRINK
    const lines = wrapped(name, width, (text) => measure(text, size))
    if (lines.length <= maxLines) return { size, lines }
  }
}

/** Where a line ends, nobody sees whether there was a space. */
function bare(text: string): string {
  return text.replaceAll(/\s/g, '')
}

/** The name with ever more of its middle left out, down to a third of it: less would not be known again. */
function* shortened(name: string): Generator<{ text: string; head: string; tail: string }> {
  for (let kept = name.length - 2; kept >= name.length / 3; kept -= 1) {
    const ofTail = Math.ceil(kept / 2)
    const head = name.slice(0, kept - ofTail).trimEnd()
    const tail = name.slice(-ofTail).trimStart()
    yield { text: `${head}…${tail}`, head, tail }
  }
}

/** Broken between words; a word that is wider than a line, between letters. */
function wrapped(text: string, width: number, measure: (text: string) => number): string[] {
  const lines: string[] = []
  let line = ''
  for (const word of text.split(/\s+/).filter((each) => each !== '')) {
    const longer = line === '' ? word : `${line} ${word}`
    if (measure(longer) <= width) {
      line = longer
      continue
    }
    if (line !== '') lines.push(line)
    line = ''
    for (const letter of word) {
      if (line !== '' && measure(line + letter) > width) {
        lines.push(line)
        line = ''
      }
      line += letter
    }
  }
  return line === '' ? lines : [...lines, line]
}
