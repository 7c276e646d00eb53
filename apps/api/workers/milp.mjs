// Solves one mixed-integer program, on a thread of its own: HiGHS does not let go of its thread until it is done. Plain
// JavaScript, since the tests run the sources and a thread can't be given TypeScript on the oldest Node.js we serve.
import loadHighs from 'highs'

const loading = loadHighs()

/** @param {{ program: string, options: object }} task */
export default async function solve({ program, options }) {
  const { Status, ObjectiveValue, Columns } = (await loading).solve(program, options)
  return { Status, ObjectiveValue, Columns }
}
