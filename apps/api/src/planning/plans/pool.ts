import { availableParallelism } from 'node:os'
import { fileURLToPath } from 'node:url'
import { MessageChannel } from 'node:worker_threads'
import { Piscina } from 'piscina'
import type {
  Improvement,
  Judgement,
  judgePlan,
  MovedPlan,
  movePlan,
  SolveAnswer,
  SolveTask,
} from './planner-worker.ts'

declare module 'fastify' {
  interface FastifyInstance {
    readonly planner: PlannerPool
  }
}

/** Compiled beside the server; a test runs the server from its sources. */
const WORKER = fileURLToPath(
  import.meta.url.endsWith('.ts')
    ? new URL('../../../dist/planner-worker.js', import.meta.url)
    : new URL('./planner-worker.js', import.meta.url),
)
const IDLE_MS = 30_000
/** Planning gives way to requests wherever the system knows priorities of threads. */
const NICE = 10

export interface Solving {
  readonly answer: Promise<SolveAnswer>
  readonly stop: () => void
}

/** The threads that plan. One core is left to requests where there are several. */
export class PlannerPool {
  /** How many plans are worked on at once. */
  readonly size = Math.max(1, availableParallelism() - 1)
  #pool: Piscina | undefined

  solve(
    task: Omit<SolveTask, 'stop' | 'progress'>,
    onImprovement: (improvement: Improvement) => void,
  ): Solving {
    const stop = new Int32Array(new SharedArrayBuffer(4))
    const { port1, port2 } = new MessageChannel()
    port1.on('message', onImprovement)
    const answer = this.#threads()
      .run({ ...task, stop, progress: port2 } satisfies SolveTask, {
        name: 'solveShop',
        transferList: [port2],
      })
      .finally(() => port1.close()) as Promise<SolveAnswer>
    return { answer, stop: () => void Atomics.store(stop, 0, 1) }
  }

  judge(task: Parameters<typeof judgePlan>[0]): Promise<Judgement> {
    return this.#quick().run(task, { name: 'judgePlan' })
  }

  move(task: Parameters<typeof movePlan>[0]): Promise<MovedPlan> {
    return this.#quick().run(task, { name: 'movePlan' })
  }

  async close(): Promise<void> {
    await Promise.all([this.#pool?.destroy(), this.#short?.destroy()])
  }

  #threads(): Piscina {
    this.#pool ??= new Piscina({
      filename: WORKER,
      minThreads: 0,
      maxThreads: this.size,
      niceIncrement: NICE,
      idleTimeout: IDLE_MS,
    })
    return this.#pool
  }

  /** Somebody drags with the mouse: that does not wait for a plan of a minute. */
  #short: Piscina | undefined
  #quick(): Piscina {
    this.#short ??= new Piscina({ filename: WORKER, minThreads: 0, maxThreads: 1, idleTimeout: IDLE_MS })
    return this.#short
  }
}
