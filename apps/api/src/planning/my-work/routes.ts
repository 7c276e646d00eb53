import { myWorkRoutes as contracts } from '@clampclock/contracts'
import type { App } from '../../foundation/http/app-type.ts'
import { bind } from '../../foundation/http/bind.ts'
import { myWork } from './my-work.ts'

export async function myWorkRoutes(app: App): Promise<void> {
  bind(app, contracts.getMyWork, ({ tx, actor, now }) => myWork(tx, actor, now))
}
