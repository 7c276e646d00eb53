import { overviewRoutes as contracts } from '@clampclock/contracts'
import { ofShop } from '../../foundation/database/marks.ts'
import type { App } from '../../foundation/http/app-type.ts'
import { bindKept } from '../../foundation/http/bind.ts'
import { overview } from './overview.ts'

export async function overviewRoutes(app: App): Promise<void> {
  bindKept(
    app,
    contracts.getOverview,
    () => ofShop(undefined),
    ({ tx, viewer, now }) => overview(tx, viewer, now),
  )
}
