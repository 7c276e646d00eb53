import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'

/** Lines of a window: long enough that whole statements and functions lie in one. */
const WINDOW = 12

/**
 * Windows of lines drawn evenly over the files, each as the pattern by which a run is told where to change.
 *
 * @param {readonly string[]} paths as git understands them
 * @param {number} share of all windows, 0 to 1
 * @param {number} seed of the draw
 * @returns {string[]}
 */
export function sampled(paths, share, seed) {
  const files = execFileSync('git', ['ls-files', ...paths], { encoding: 'utf8' })
    .trim()
    .split('\n')
    .filter((file) => file.endsWith('.ts') && !/(\.test|\/testing|\/index|\/routes)\.ts$/.test(file))
  const windows = files.flatMap((file) => {
    const lines = readFileSync(file, 'utf8').split('\n').length
    return Array.from({ length: Math.ceil(lines / WINDOW) }, (_, i) => {
      const from = i * WINDOW + 1
      return `${file}:${from}-${Math.min(lines, from + WINDOW - 1)}`
    })
  })
  const random = generator(seed)
  return windows.filter(() => random() < share)
}

/** Mulberry32, by Tommy Ettinger (public domain): the same seed draws the same windows everywhere. */
function generator(seed) {
  let state = seed
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296
  }
}
