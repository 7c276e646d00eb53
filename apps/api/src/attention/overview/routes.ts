import { overviewRoutes as contracts } from '@clampclock/contracts'
import type { App } from '../../foundation/http/app-type.ts'
import { bind } from '../../foundation/http/bind.ts'
import { overview } from './overview.ts'

export async function overviewRoutes(app: App): Promise<void> {
  bind(app, contracts.getOverview, ({ tx, actor, now }) => overview(tx, actor, now))
}
