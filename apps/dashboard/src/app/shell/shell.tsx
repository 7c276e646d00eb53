import { Link, Outlet, useSearch } from '@tanstack/react-router'
import { Suspense } from 'react'
import { isBaySide } from '../../api/permissions.ts'
import { useMay, useMe } from '../../api/use-me.ts'
import { Loading } from '../../ui/waiting.tsx'
import { useLiveUpdates } from '../use-live-updates.ts'
import { FindByScan } from '../../features/scan/find-by-scan.tsx'
import { AccountMenu } from './account-menu.tsx'
import { BottomBar } from './bottom-bar.tsx'
import { BrandMark } from './brand.tsx'
import { LiveMark } from './live-mark.tsx'
import { MyCalls } from './my-calls.tsx'
import { MyOpenJoints } from './my-open-joints.tsx'
import { navItems } from './nav-items.ts'
import { SchemeToggle } from './scheme-toggle.tsx'
import styles from './shell.module.css'
import { ShopClock } from './shop-clock.tsx'
import { ShopSwitch } from './shop-switch.tsx'
import { SignInAgain } from './sign-in-again.tsx'
import { lazily } from '../../ui/lazily.tsx'
import { t, withWords } from '../../lib/reader.ts'

const acts = () => withWords(import('../../features/acts/acts-parts.tsx'), 'acts')
const ActsAtWork = lazily(async () => (await acts()).ActsAtWork)
const ActsMark = lazily(async () => (await acts()).ActsMark)

/** What is round every screen: where one can go, which shop is in view, whether the picture is live, who one is. */
export function Shell() {
  const may = useMay()
  const live = useLiveUpdates()
  const { wall } = useSearch({ strict: false })
  const items = navItems(isBaySide(useMe())).filter((item) => item.needs === undefined || may(item.needs))
  const screen = (
    <Suspense fallback={<Loading what={t('app.theScreen')} />}>
      <Outlet />
    </Suspense>
  )
  if (wall === true) {
    return (
      <main className={styles['content']} id="content">
        {screen}
        <ActsAtWork isLive={live.state === 'live'} />
      </main>
    )
  }
  return (
    <div className={styles['shell']}>
      <a href="#content" className={styles['skip']}>
        {t('app.skipToTheContent')}
      </a>
      <div className={styles['side']}>
        <nav className={styles['nav']} aria-label={t('app.main')}>
          <Link to="/" className={styles['brand']}>
            <BrandMark />
            {t('app.clampclock')}
          </Link>
          {items.map(({ to, label, icon: Icon }) => (
            <Link
              key={to}
              to={to}
              className={styles['item']}
              activeOptions={{ exact: to === '/', includeSearch: false }}
            >
              <Icon size={18} aria-hidden />
              {label}
            </Link>
          ))}
        </nav>
        <div className={styles['foot']}>
          <LiveMark state={live.state} onRetry={live.retry} />
        </div>
      </div>
      <div className={styles['main']}>
        {/* No header element: a dialog's own would be a second banner beside it. */}
        <section className={styles['top']} aria-label={t('app.shopAndAccount')}>
          <ShopSwitch />
          <ShopClock />
          <span className={styles['spacer']} />
          <FindByScan />
          <ActsMark />
          <LiveMark state={live.state} onRetry={live.retry} onlyWhenNotLive />
          <SchemeToggle />
          <AccountMenu />
        </section>
        <main className={styles['content']} id="content">
          {screen}
        </main>
      </div>
      {may('makeBonds') && <MyOpenJoints />}
      {may('makeBonds') && <MyCalls />}
      <BottomBar items={items} />
      <SignInAgain />
      <ActsAtWork isLive={live.state === 'live'} />
    </div>
  )
}
