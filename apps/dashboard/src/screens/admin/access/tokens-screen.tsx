import { ROUTES } from '../../../api/contracts.ts'
import { Button, NativeSelect, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { useDisclosure } from '@mantine/hooks'
import { useQuery } from '@tanstack/react-query'
import { KeyRound } from 'lucide-react'
import { useState } from 'react'
import { accessQueries } from '../../../api/queries/access.ts'
import { useAction } from '../../../api/use-action.ts'
import { useMay, useShops } from '../../../api/use-me.ts'
import { useFormReasons } from '../../../lib/use-form-reasons.ts'
import { Page } from '../../../ui/page.tsx'
import { Answered, Empty } from '../../../ui/waiting.tsx'
import { AdminNav } from '../admin-nav.tsx'
import { FormDialog } from '../../../ui/dialogs/form-dialog.tsx'
import { NewSecret } from './new-secret.tsx'
import { TokenTable } from './token-table.tsx'
import { t } from '../../../lib/reader.ts'

export function TokensScreen() {
  const tokens = useQuery(accessQueries.tokens())
  const [adding, { open, close }] = useDisclosure()
  const [secret, setSecret] = useState<string>()
  return (
    <Page
      title={t('admin.tokens')}
      lede={t('admin.forThermometersAndOtherPrograms')}
      actions={
        <Button leftSection={<KeyRound size={16} aria-hidden />} onClick={open}>
          {t('admin.makeToken')}
        </Button>
      }
    >
      <AdminNav />
      {secret !== undefined && <NewSecret secret={secret} />}
      <Answered query={tokens} what={t('admin.tokens2')}>
        {({ items }) =>
          items.length === 0 ? <Empty title={t('admin.noTokensYet')} /> : <TokenTable tokens={items} />
        }
      </Answered>
      {adding && (
        <TokenDialog
          onClose={close}
          onMade={(made) => {
            setSecret(made)
            close()
          }}
        />
      )}
    </Page>
  )
}

const SCOPES = [
  {
    value: 'sensor',
    get label() {
      return t('admin.sensorSendsTemperatures')
    },
  },
  {
    value: 'integration',
    get label() {
      return t('admin.integrationReadsEverythingPlansWork')
    },
  },
]

interface DialogProps {
  readonly onClose: () => void
  readonly onMade: (secret: string) => void
}

function TokenDialog({ onClose, onMade }: DialogProps) {
  const may = useMay()
  const shops = useShops().filter(({ id }) => may('manageChain', id))
  const isOfChain = may('manageChain', null)
  const form = useForm({
    initialValues: {
      name: '',
      scope: 'sensor' as 'sensor' | 'integration',
      shopId: isOfChain ? '' : (shops[0]?.id ?? ''),
    },
  })
  const add = useAction(ROUTES.addAccessToken, { topics: ['people'], onDone: ({ secret }) => onMade(secret) })
  const others = useFormReasons(form, add.error)
  const submit = form.onSubmit(({ name, scope, shopId }) =>
    add.mutate({ body: { name, scope, shopId: shopId === '' ? null : shopId } }),
  )
  return (
    <FormDialog
      title={t('admin.makeToken')}
      onClose={onClose}
      onSubmit={submit}
      submitLabel={t('admin.make')}
      isPending={add.isPending}
      error={add.error}
      reasons={others}
    >
      <TextInput
        label={t('admin.name')}
        description={t('admin.whatUsesIt')}
        required
        data-autofocus
        {...form.getInputProps('name')}
      />
      <NativeSelect label={t('admin.mayDo')} data={SCOPES} {...form.getInputProps('scope')} />
      <NativeSelect
        label={t('admin.in')}
        data={[
          ...(isOfChain ? [{ value: '', label: t('admin.everyShop') }] : []),
          ...shops.map(({ id, name }) => ({ value: id, label: name })),
        ]}
        {...form.getInputProps('shopId')}
      />
    </FormDialog>
  )
}
