import { patterns as account } from './en/account.ts'
import { patterns as acts } from './en/acts.ts'
import { patterns as admin } from './en/admin.ts'
import { patterns as alerts } from './en/alerts.ts'
import { patterns as api } from './en/api.ts'
import { patterns as app } from './en/app.ts'
import { patterns as attachments } from './en/attachments.ts'
import { patterns as bays } from './en/bays.ts'
import { patterns as bondRecord } from './en/bond-record.ts'
import { patterns as calls } from './en/calls.ts'
import { patterns as calendar } from './en/calendar.ts'
import { patterns as features } from './en/features.ts'
import { patterns as help } from './en/help.ts'
import { patterns as job } from './en/job.ts'
import { patterns as lib } from './en/lib.ts'
import { patterns as myWork } from './en/my-work.ts'
import { patterns as offline } from './en/offline.ts'
import { patterns as ordering } from './en/ordering.ts'
import { patterns as overview } from './en/overview.ts'
import { patterns as plan } from './en/plan.ts'
import { patterns as planFigures } from './en/plan-figures.ts'
import { patterns as planSetup } from './en/plan-setup.ts'
import { patterns as preferences } from './en/preferences.ts'
import { patterns as products } from './en/products.ts'
import { patterns as repairs } from './en/repairs.ts'
import { patterns as schedule } from './en/schedule.ts'
import { patterns as setup } from './en/setup.ts'
import { patterns as signIn } from './en/sign-in.ts'
import { patterns as startBond } from './en/start-bond.ts'
import { patterns as stock } from './en/stock.ts'
import { patterns as ui } from './en/ui.ts'
import { patterns as waste } from './en/waste.ts'
import { patterns as words } from './en/words.ts'

/** English is the source of the keys and of the names of arguments. */
export const areas = {
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
} as const
