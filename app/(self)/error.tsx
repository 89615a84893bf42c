'use client'

export { WentWrong as default } from '@/app/ui/went-wrong'
