export { NothingHere as default } from '@/app/ui/nothing-here'
