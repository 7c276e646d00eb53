/**
 * May the gate be believed? Bonds in simulated bays whose metal has a true temperature of its own, and when the gate
 * would have opened by what was measured. See docs/honesty.md.
 *
 * npm run bench -- honesty [--bonds 7000] [--seed 1] [--only scenario] [--histories FILE]
 */
import { parseArgs } from 'node:util'
import { limitsOfPlace } from '@clampclock/cure'
import { opensAt } from './honesty/gate.ts'
import { minuteOf, rateOf, shareAt, shareOf } from './honesty/metal.ts'
import { SCENARIOS, simulate, type Scenario } from './honesty/scenarios.ts'

const { values } = parseArgs({
  options: {
    bonds: { type: 'string', default: '7000' },
    seed: { type: 'string', default: '1' },
    only: { type: 'string' },
  },
})
const MINUTE_MS = 60_000
const scenarios = SCENARIOS.filter((name) => values.only === undefined || name === values.only)
const each = Math.ceil(Number(values.bonds) / scenarios.length)

interface Judged {
  readonly share: number
  readonly extra: number
}

function judge(scenario: Scenario, seed: number): Judged | undefined {
  const { sheet, appliedAtMs, tauMinutes, readings, past, metalC } = simulate(scenario, seed)
  const share = shareOf(metalC, rateOf(sheet))
  const oracle = minuteOf(share, 1)
  if (!Number.isFinite(oracle)) return undefined
  const untilMs = appliedAtMs + (metalC.length - 1) * MINUTE_MS
  const opens = opensAt(sheet, appliedAtMs, tauMinutes, limitsOfPlace(past), readings, untilMs)
  if (!Number.isFinite(opens)) return { share: Infinity, extra: Infinity }
  const minute = (opens - appliedAtMs) / MINUTE_MS
  return { share: shareAt(share, minute), extra: minute / oracle - 1 }
}

const figures = scenarios.map((scenario) => {
  const start = process.hrtime.bigint()
  const judged: Judged[] = []
  for (let i = 0; i < each; i++) {
    const one = judge(scenario, Number(values.seed) * 1_000_003 + i)
    if (one) judged.push(one)
    if (one && one.share < 0.98) console.error(scenario, Number(values.seed) * 1_000_003 + i, one)
  }
  const extra = judged.map((one) => one.extra).toSorted((a, b) => a - b)
  const at = (q: number): number => Math.round((extra[Math.floor(q * (extra.length - 1))] ?? NaN) * 1000) / 10
  const seconds = Number(process.hrtime.bigint() - start) / 1e9
  const row = {
    scenario,
    bonds: judged.length,
    openedEarly: judged.filter((one) => one.share < 1).length,
    worstShare: Math.round(Math.min(...judged.map((one) => one.share)) * 10_000) / 10_000,
    medianExtraPercent: at(0.5),
    extra95Percent: at(0.95),
    seconds: Math.round(seconds),
  }
  console.log(JSON.stringify(row))
  return row
})
console.log(JSON.stringify({ bench: 'honesty', figures }))
