/**
 * Taillard's published generator of job shops ("Benchmarks for basic scheduling problems", EJOR 64, 1993,
 * doi 10.1016/0377-2217(93)90182-M) with his seeds for the ten instances of 15 jobs on 15 machines. The optima are
 * from memory, as listed by many since; each was proved by others.
 */
export const taillard15x15 = [
  { name: 'ta01', timeSeed: 840612802, machineSeed: 398197754, best: 1231 },
  { name: 'ta02', timeSeed: 1314640371, machineSeed: 386720536, best: 1244 },
  { name: 'ta03', timeSeed: 1227221349, machineSeed: 316176388, best: 1218 },
  { name: 'ta04', timeSeed: 342269428, machineSeed: 1806358582, best: 1175 },
  { name: 'ta05', timeSeed: 1603221416, machineSeed: 1501949241, best: 1224 },
  { name: 'ta06', timeSeed: 1357584978, machineSeed: 1734077082, best: 1238 },
  { name: 'ta07', timeSeed: 44531661, machineSeed: 1374316395, best: 1227 },
  { name: 'ta08', timeSeed: 302545136, machineSeed: 2092186050, best: 1217 },
  { name: 'ta09', timeSeed: 1153780144, machineSeed: 1393392374, best: 1274 },
  { name: 'ta10', timeSeed: 73896786, machineSeed: 1544979948, best: 1241 },
] as const

/** Bratley, Fox & Schrage's generator as the paper gives it: x' = 16807 x mod (2^31 - 1), uniform on low..high. */
function uniform(seed: number): (low: number, high: number) => number {
  let x = seed
  return (low, high) => {
    x = (16807 * x) % 2147483647
    return low + Math.floor((x / 2147483647) * (high - low + 1))
  }
}

/** One of the instances in the standard text form. */
export function taillardText(name: string): string {
  const { timeSeed, machineSeed } = taillard15x15.find((entry) => entry.name === name)!
  return randomShopText(15, timeSeed, machineSeed)
}

/** As many jobs as machines, in the standard text form. */
export function randomShopText(size: number, timeSeed: number, machineSeed: number): string {
  const time = uniform(timeSeed)
  const place = uniform(machineSeed)
  const durations = Array.from({ length: size }, () => Array.from({ length: size }, () => time(1, 99)))
  const machines = Array.from({ length: size }, () => Array.from({ length: size }, (_, i) => i))
  for (const order of machines) {
    for (let i = 0; i < size; i++) {
      const k = place(i, size - 1)
      ;[order[i], order[k]] = [order[k]!, order[i]!]
    }
  }
  const lines = durations.map((row, j) =>
    row.map((duration, i) => `${machines[j]![i]!} ${duration}`).join(' '),
  )
  return `${size} ${size}\n${lines.join('\n')}\n`
}
