import { Menu } from '@mantine/core'
import { Link } from '@tanstack/react-router'
import { MoreButton } from './more-button.tsx'
import type { NavItem } from './nav-items.ts'

export function MoreMenu({ items }: { readonly items: readonly NavItem[] }) {
  return (
    <Menu defaultOpened position="top-end" width={220}>
      <Menu.Target>
        <MoreButton />
      </Menu.Target>
      <Menu.Dropdown>
        {items.map(({ to, label, icon: Icon }) => (
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
  )
}
