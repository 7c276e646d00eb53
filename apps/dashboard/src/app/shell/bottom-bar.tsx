import { Link } from '@tanstack/react-router'
import { useState } from 'react'
import { lazily } from '../../ui/lazily.tsx'
import { MoreButton } from './more-button.tsx'
import type { NavItem } from './nav-items.ts'
import styles from './shell.module.css'
import { t } from '../../lib/reader.ts'

const MoreMenu = lazily(
  async () => (await import('./more-menu.tsx')).MoreMenu,
  () => <MoreButton />,
)

/** The phone's way about: four places and the rest behind 'More', whose menu comes with the first press. */
export function BottomBar({ items }: { readonly items: readonly NavItem[] }) {
  const [isPressed, setPressed] = useState(false)
  const main = items.filter((item) => item.onPhone !== undefined)
  const more = items.filter((item) => item.onPhone === undefined)
  return (
    <nav className={styles['bottom']} aria-label={t('app.mainPhone')}>
      {main.map(({ to, onPhone, icon: Icon }) => (
        <Link
          key={to}
          to={to}
          className={styles['tab']}
          activeOptions={{ exact: to === '/', includeSearch: false }}
        >
          <Icon size={22} aria-hidden />
          {onPhone}
        </Link>
      ))}
      {isPressed ? <MoreMenu items={more} /> : <MoreButton onClick={() => setPressed(true)} />}
    </nav>
  )
}
