import { patterns as alert } from './es/service/alert.ts'
import { patterns as attachment } from './es/service/attachment.ts'
import { patterns as bake } from './es/service/bake.ts'
import { patterns as cartridge } from './es/service/cartridge.ts'
import { patterns as finding } from './es/service/finding.ts'
import { patterns as gate } from './es/service/gate.ts'
import { patterns as incident } from './es/service/incident.ts'
import { patterns as mail } from './es/service/mail.ts'
import { patterns as move } from './es/service/move.ts'
import { patterns as note } from './es/service/note.ts'
import { patterns as order } from './es/service/order.ts'
import { patterns as planRule } from './es/service/plan-rule.ts'
import { patterns as problem } from './es/service/problem.ts'
import { patterns as reason } from './es/service/reason.ts'
import { patterns as record } from './es/service/record.ts'
import { patterns as setupProblem } from './es/service/setup-problem.ts'
import { patterns as cureProblem } from './es/service/cure-problem.ts'
import { patterns as planProblem } from './es/service/plan-problem.ts'
import { patterns as recordFault } from './es/service/record-fault.ts'
import { patterns as template } from './es/service/template.ts'
import { patterns as planReason } from './es/service/plan-reason.ts'
import { patterns as stockReason } from './es/service/stock-reason.ts'
import { patterns as stockProblem } from './es/service/stock-problem.ts'
import { patterns as field } from './es/service/field.ts'
import { patterns as sheet } from './es/service/sheet.ts'
import { patterns as csv } from './es/service/csv.ts'
import { patterns as feed } from './es/service/feed.ts'
import { patterns as recall } from './es/service/recall.ts'

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
