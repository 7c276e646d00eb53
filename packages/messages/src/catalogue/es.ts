import type { Areas } from '../keys.ts'
import { patterns as account } from './es/account.ts'
import { patterns as acts } from './es/acts.ts'
import { patterns as admin } from './es/admin.ts'
import { patterns as alerts } from './es/alerts.ts'
import { patterns as api } from './es/api.ts'
import { patterns as app } from './es/app.ts'
import { patterns as attachments } from './es/attachments.ts'
import { patterns as bays } from './es/bays.ts'
import { patterns as bondRecord } from './es/bond-record.ts'
import { patterns as calls } from './es/calls.ts'
import { patterns as calendar } from './es/calendar.ts'
import { patterns as features } from './es/features.ts'
import { patterns as help } from './es/help.ts'
import { patterns as job } from './es/job.ts'
import { patterns as lib } from './es/lib.ts'
import { patterns as myWork } from './es/my-work.ts'
import { patterns as offline } from './es/offline.ts'
import { patterns as ordering } from './es/ordering.ts'
import { patterns as overview } from './es/overview.ts'
import { patterns as plan } from './es/plan.ts'
import { patterns as planFigures } from './es/plan-figures.ts'
import { patterns as planSetup } from './es/plan-setup.ts'
import { patterns as preferences } from './es/preferences.ts'
import { patterns as products } from './es/products.ts'
import { patterns as repairs } from './es/repairs.ts'
import { patterns as schedule } from './es/schedule.ts'
import { patterns as setup } from './es/setup.ts'
import { patterns as signIn } from './es/sign-in.ts'
import { patterns as startBond } from './es/start-bond.ts'
import { patterns as stock } from './es/stock.ts'
import { patterns as ui } from './es/ui.ts'
import { patterns as waste } from './es/waste.ts'
import { patterns as words } from './es/words.ts'

export const areas: { readonly [Area in keyof Areas]: Readonly<Record<keyof Areas[Area], string>> } = {
  account,
  acts,
  admin,
  alerts,
  api,
  app,
  attachments,
  bays,
  'bond-record': bondRecord,
  calls,
  calendar,
  features,
  help,
  job,
  lib,
  'my-work': myWork,
  offline,
  ordering,
  overview,
  plan,
  'plan-figures': planFigures,
  'plan-setup': planSetup,
  preferences,
  products,
  repairs,
  schedule,
  setup,
  'sign-in': signIn,
  'start-bond': startBond,
  stock,
  ui,
  waste,
  words,
}
