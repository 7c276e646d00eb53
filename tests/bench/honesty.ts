/**
 * May the gate be believed? Bonds in simulated bays whose metal has a true temperature of its own, and when the gate
 * would have opened by what was measured: docs/honesty.md says how, and what came out.
 *
 * npm run bench -- honesty [--bonds 7000] [--seed 1] [--only SCENARIO] [--lies] [--histories FILE]
 */
import { parseArgs } from 'node:util'
import { casesOf } from './honesty/histories.ts'
import {
  figuresOf,
  figuresOfLies,
  judge,
  judgeLie,
  type Figures,
  type Judged,
  type LieFigures,
} from './honesty/judge.ts'
import { LIES } from './honesty/lie-kinds.ts'
import { tellLies } from './honesty/lies.ts'
import { SCENARIOS, simulate } from './honesty/scenarios.ts'

const { values } = parseArgs({
  options: {
    bonds: { type: 'string', default: '7000' },
    seed: { type: 'string', default: '1' },
    only: { type: 'string' },
    lies: { type: 'boolean', default: false },
    histories: { type: 'string' },
  },
})

/** Each gate that opened well before its time is named, so that it can be looked into. */
const NAMED_BELOW = 0.98

function told(judged: Judged): Judged {
  if (judged.share !== null && judged.share < NAMED_BELOW)
    console.log(`opened early: ${JSON.stringify(judged)}`)
  return judged
}

function simulated(): Figures[] {
  const scenarios = SCENARIOS.filter((name) => values.only === undefined || name === values.only)
  if (scenarios.length === 0) throw new Error(`--only is one of ${SCENARIOS.join(', ')}`)
  const each = Math.ceil(Number(values.bonds) / scenarios.length)
  const firstSeed = Number(values.seed) * 1_000_003
  return scenarios.map((scenario) => {
    const judged: Judged[] = []
    for (let i = 0; i < each; i++) {
      const one = simulate(scenario, firstSeed + i)
      const result = told(judge(one))
      // Some bays get too cold for the bond ever to cure: there the oracle waits for ever too.
      if (Number.isFinite(one.oracleMinute) || result.share !== null) judged.push(result)
    }
    const figures = figuresOf(scenario, judged)
    console.log(JSON.stringify(figures))
    return figures
  })
}

function lied(): LieFigures[] {
  const lies = LIES.filter((name) => values.only === undefined || name === values.only)
  if (lies.length === 0) throw new Error(`--only is one of ${LIES.join(', ')}`)
  const each = Math.ceil(Number(values.bonds) / lies.length)
  const firstSeed = Number(values.seed) * 1_000_003
  return lies.map((lie) => {
    const judged = Array.from({ length: each }, (_, i) => judgeLie(tellLies(lie, firstSeed + i)))
    const figures = figuresOfLies(lie, judged)
    console.log(JSON.stringify(figures))
    return figures
  })
}

const figures = values.lies
  ? lied()
  : values.histories === undefined
    ? simulated()
    : [
        figuresOf(
          values.histories,
          casesOf(values.histories).map((one) => told(judge(one))),
        ),
      ]
console.log(JSON.stringify({ bench: 'honesty', figures }))
