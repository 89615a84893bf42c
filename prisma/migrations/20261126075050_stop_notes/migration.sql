-- AlterTable
ALTER TABLE "Stop" ADD COLUMN "note" TEXT;
