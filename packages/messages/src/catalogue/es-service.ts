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
}
