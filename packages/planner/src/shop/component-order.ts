import type { Random } from '../search/random.ts'
import type { Compiled } from './compiled.ts'

/**
 * Orders in which the components of a group may be inserted, by random keys (Bean 1994, doi 10.1287/ijoc.6.2.154).
 * Most groups are chains with one order only; a project with branches has many, and this is where they are searched.
 */
export class ComponentOrder {
  /** Whether the group has more than one order. */
  readonly isOpen: Uint8Array
  private readonly keys: Float64Array[]
  private readonly saved: Float64Array[]
  private readonly before: (readonly Int32Array[])[]

  constructor(compiled: Compiled) {
    const { groups, lagsIn } = compiled
    this.isOpen = new Uint8Array(groups.length)
    const componentOf = new Int32Array(lagsIn.length)
    this.before = groups.map(({ components }, g) => {
      components.forEach(({ tasks }, c) => tasks.forEach((i) => (componentOf[i] = c)))
      const lists = components.map(({ tasks }, c) => {
        const found: number[] = []
        for (const i of tasks) {
          for (const { other } of lagsIn[i]!) {
            const b = componentOf[other]!
            if (b !== c && !found.includes(b)) found.push(b)
          }
        }
        return new Int32Array(found)
      })
      if (lists.some((list, c) => c > 0 && !list.includes(c - 1))) this.isOpen[g] = 1
      return lists
    })
    // To begin with, the longer the rest of the group after a component, the sooner it goes.
    this.keys = groups.map((group, g) => {
      const rest = new Float64Array(group.components.length)
      for (let c = rest.length - 1; c >= 0; c--) {
        rest[c]! += group.components[c]!.tasks.reduce((sum, i) => sum + compiled.modes[i]![0]!.work + 1, 0)
        for (const b of this.before[g]![c]!) rest[b] = Math.max(rest[b]!, rest[c]!)
      }
      const longest = rest.reduce((most, value) => Math.max(most, value), 1)
      return rest.map((value) => -value / longest)
    })
    this.saved = this.keys.map((keys) => keys.slice())
  }

  perturb(g: number, random: Random): void {
    const keys = this.keys[g]!
    const moves = 1 + random.below(3)
    for (let k = 0; k < moves; k++) {
      const c = random.below(keys.length)
      keys[c] = random.below(3) === 0 ? -random.unit() : keys[c]! + (random.unit() - 0.5) * 0.3
    }
  }

  keep(g: number): void {
    this.saved[g]!.set(this.keys[g]!)
  }

  undo(g: number): void {
    this.keys[g]!.set(this.saved[g]!)
  }

  order(g: number): Int32Array | null {
    if (this.isOpen[g] === 0) return null
    const keys = this.keys[g]!
    const before = this.before[g]!
    const result = new Int32Array(keys.length)
    const done = new Uint8Array(keys.length)
    for (let at = 0; at < keys.length; at++) {
      let pick = -1
      for (let c = 0; c < keys.length; c++) {
        if (done[c] === 0 && (pick < 0 || keys[c]! < keys[pick]!) && before[c]!.every((b) => done[b] === 1))
          pick = c
      }
      done[pick] = 1
      result[at] = pick
    }
    return result
  }
}
