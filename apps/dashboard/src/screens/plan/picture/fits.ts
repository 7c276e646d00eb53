/**
 * Whether a text has room in a bar of so many px: cut words say less than none. A letter takes 0.6 of its height, a
 * little more than most do.
 */
export function fits(text: string, room: number): boolean {
  const rem = Number.parseFloat(getComputedStyle(document.documentElement).fontSize)
  return text.length * 0.6 * LETTER_REM * rem <= room
}

/** Words in a bar, as gantt.module.css has them. */
const LETTER_REM = 0.75
