import { patterns as alert } from './en/service/alert.ts'
import { patterns as attachment } from './en/service/attachment.ts'
import { patterns as bake } from './en/service/bake.ts'
import { patterns as cartridge } from './en/service/cartridge.ts'
import { patterns as finding } from './en/service/finding.ts'
import { patterns as gate } from './en/service/gate.ts'
import { patterns as incident } from './en/service/incident.ts'
import { patterns as mail } from './en/service/mail.ts'
import { patterns as move } from './en/service/move.ts'
import { patterns as note } from './en/service/note.ts'
import { patterns as order } from './en/service/order.ts'
import { patterns as planRule } from './en/service/plan-rule.ts'
import { patterns as problem } from './en/service/problem.ts'
import { patterns as reason } from './en/service/reason.ts'
import { patterns as record } from './en/service/record.ts'
import { patterns as setupProblem } from './en/service/setup-problem.ts'
import { patterns as cureProblem } from './en/service/cure-problem.ts'
import { patterns as planProblem } from './en/service/plan-problem.ts'
import { patterns as recordFault } from './en/service/record-fault.ts'
import { patterns as template } from './en/service/template.ts'
import { patterns as planReason } from './en/service/plan-reason.ts'
import { patterns as stockReason } from './en/service/stock-reason.ts'
import { patterns as stockProblem } from './en/service/stock-problem.ts'
import { patterns as field } from './en/service/field.ts'
import { patterns as sheet } from './en/service/sheet.ts'
import { patterns as csv } from './en/service/csv.ts'
import { patterns as feed } from './en/service/feed.ts'
import { patterns as recall } from './en/service/recall.ts'

/** What the service says and no page does: kept out of what pages load. English is the source of keys. */
export const service = {
  alert,
  attachment,
  bake,
  cartridge,
  finding,
  gate,
  incident,
  mail,
  move,
  note,
  order,
  'plan-rule': planRule,
  problem,
  reason,
  record,
  'setup-problem': setupProblem,
  'cure-problem': cureProblem,
  'plan-problem': planProblem,
  'stock-problem': stockProblem,
  'stock-reason': stockReason,
  'plan-reason': planReason,
  template,
  'record-fault': recordFault,
  field,
  sheet,
  csv,
  feed,
  recall,
}
