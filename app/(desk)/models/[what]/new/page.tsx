import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { demand, deskViewer } from '@/app/ui/session'
import { unitSymbols } from '@/lib/domain/quantity'
import { paths } from '@/lib/paths'
import { storeCartridge, storePump } from '../../actions'
import { ModelForm } from '../../model-form'

export const metadata: Metadata = { title: 'Add a model' }

export default async function NewModelPage({ params }: { params: Promise<{ what: string }> }) {
  const { what: kind } = await params
  const viewer = await deskViewer()
  await demand(viewer, 'well.edit')
  if (kind !== 'pump' && kind !== 'cartridge') notFound()
  return (
    <>
      <PageHead title={`Add a ${kind} model`}>
        <Link href={paths.models()} prefetch={false}>
          Back to the models
        </Link>
      </PageHead>
      <ModelForm
        kind={kind}
        action={(kind === 'pump' ? storePump : storeCartridge).bind(null, null)}
        initial={{}}
        units={unitSymbols(viewer.units)}
      />
    </>
  )
}
