import type { Access } from '@clampclock/contracts'
import type { FastifyInstance } from 'fastify'
import type { Actor } from '../permissions/actor.ts'
import type { Config } from '../config/config.ts'
import type { Database } from '../database/database.ts'
import type { KeptAnswers } from './kept-answers.ts'
import type { LiveHub } from '../live/hub.ts'

export type App = FastifyInstance

declare module 'fastify' {
  interface FastifyInstance {
    readonly config: Config
    readonly database: Database
    readonly live: LiveHub
    readonly answers: KeptAnswers
    /** The one clock of the service; tests set it. */
    readonly clock: () => Date
  }
  interface FastifyRequest {
    actor: Actor | null
  }
  interface FastifyContextConfig {
    access?: Access
    /** `chain`: the permission must be held in every shop. */
    reach?: 'chain' | undefined
    /** Open also to who must choose a password first. */
    withTemporaryPassword?: true | undefined
    /** Answers past the reply: no cookie can go along. */
    isStream?: true
  }
}
