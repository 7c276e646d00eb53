import { labelRoutes as contracts } from '@clampclock/contracts'
import { LABEL_SHEETS } from '@clampclock/stock'
import type { App } from '../../foundation/http/app-type.ts'
import { bind, bindDocument } from '../../foundation/http/bind.ts'
import { printLabels } from './labels.ts'

export async function labelRoutes(app: App): Promise<void> {
  bind(app, contracts.listLabelSheets, async () => ({ items: [...LABEL_SHEETS] }))
  bindDocument(app, contracts.getLabels, ({ tx, actor, query, reader }) =>
    printLabels(tx, actor, query, app.config.publicUrl, reader),
  )
}
