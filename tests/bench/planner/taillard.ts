import { taillardInstances, type TaillardInstance } from './taillard-instances.ts'

/** Bratley, Fox & Schrage's generator as the paper gives it: x' = 16807 x mod (2^31 - 1), uniform on low..high. */
function uniform(seed: number): (low: number, high: number) => number {
  let x = seed
  return (low, high) => {
    x = (16807 * x) % 2147483647
    return low + Math.floor((x / 2147483647) * (high - low + 1))
  }
}

/**
 * A random job shop in the standard text form by Taillard's published generator ("Benchmarks for basic scheduling
 * problems", EJOR 64, 1993, doi 10.1016/0377-2217(93)90182-M): each job once on each machine.
 */
export function randomShopText(
  jobs: number,
  machines: number,
  timeSeed: number,
  machineSeed: number,
): string {
  const time = uniform(timeSeed)
  const place = uniform(machineSeed)
  const durations = Array.from({ length: jobs }, () => Array.from({ length: machines }, () => time(1, 99)))
  const routes = Array.from({ length: jobs }, () => Array.from({ length: machines }, (_, i) => i))
  for (const route of routes) {
    for (let i = 0; i < machines; i++) {
      const k = place(i, machines - 1)
      ;[route[i], route[k]] = [route[k]!, route[i]!]
    }
  }
  const lines = durations.map((row, j) => row.map((duration, i) => `${routes[j]![i]!} ${duration}`).join(' '))
  return `${jobs} ${machines}\n${lines.join('\n')}\n`
}

const unnamed: readonly TaillardInstance[] = [1, 2, 3].map((seed) => ({
  name: `seed${seed}`,
  timeSeed: 1000 + seed,
  machineSeed: 2000 + seed,
  best: null,
}))

/** Taillard's own instances of a size like "20x15"; three of other seeds, without a known value, where there are none. */
export function taillardShops(size: string): { name: string; text: string; best: number | null }[] {
  const [jobs, machines] = size.split('x').map(Number)
  if (!jobs || !machines) throw new Error(`--taillard ${size}: give jobs x machines, like 20x15`)
  return (taillardInstances[size] ?? unnamed).map(({ name, timeSeed, machineSeed, best }) => ({
    name,
    text: randomShopText(jobs, machines, timeSeed, machineSeed),
    best,
  }))
}
