import { Menu } from '@mantine/core'
import { Link } from '@tanstack/react-router'
import { Ellipsis } from 'lucide-react'
import type { NAV } from './nav-items.ts'
import styles from './shell.module.css'

/** The phone's way about: four places and the rest behind 'More'. */
export function BottomBar({ items }: { readonly items: typeof NAV }) {
  const main = items.filter((item) => item.onPhone !== undefined)
  const more = items.filter((item) => item.onPhone === undefined)
  return (
    <nav className={styles['bottom']} aria-label="Main, phone">
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
      <Menu position="top-end" width={220}>
        <Menu.Target>
          <button type="button" className={styles['tab']}>
            <Ellipsis size={22} aria-hidden />
            More
          </button>
        </Menu.Target>
        <Menu.Dropdown>
          {more.map(({ to, label, icon: Icon }) => (
            <Menu.Item
              key={to}
              leftSection={<Icon size={18} aria-hidden />}
              py="sm"
              renderRoot={(props) => <Link {...props} to={to} />}
            >
              {label}
            </Menu.Item>
          ))}
        </Menu.Dropdown>
      </Menu>
    </nav>
  )
}
