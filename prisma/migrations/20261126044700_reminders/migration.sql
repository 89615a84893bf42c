-- CreateTable
CREATE TABLE "Matter" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "wellId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "state" TEXT NOT NULL,
    "later" INTEGER NOT NULL,
    "onDay" TEXT NOT NULL,
    "payload" TEXT NOT NULL,
    "ownerId" TEXT,
    CONSTRAINT "Matter_wellId_fkey" FOREIGN KEY ("wellId") REFERENCES "Well" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "MailChoice" (
    "userId" TEXT NOT NULL PRIMARY KEY,
    "off" BOOLEAN NOT NULL DEFAULT false,
    "quietHash" TEXT,
    "feedHash" TEXT,
    "feedMadeAt" TEXT,
    CONSTRAINT "MailChoice_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Mailing" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "userId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "forDay" TEXT NOT NULL,
    "address" TEXT NOT NULL,
    "subject" TEXT NOT NULL,
    "text" TEXT NOT NULL,
    "state" TEXT NOT NULL,
    "tries" INTEGER NOT NULL DEFAULT 0,
    "reason" TEXT,
    "claimedAt" TEXT NOT NULL,
    "settledAt" TEXT,
    "againAt" TEXT,
    CONSTRAINT "Mailing_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Reminder" (
    "key" TEXT NOT NULL PRIMARY KEY,
    "userId" TEXT NOT NULL,
    "mailingId" TEXT,
    "itemId" TEXT NOT NULL,
    "lead" INTEGER NOT NULL,
    "dueOn" TEXT NOT NULL,
    CONSTRAINT "Reminder_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "Reminder_mailingId_fkey" FOREIGN KEY ("mailingId") REFERENCES "Mailing" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateIndex
CREATE INDEX "Matter_kind_later_onDay_id_idx" ON "Matter"("kind", "later", "onDay", "id");

-- CreateIndex
CREATE INDEX "Matter_ownerId_idx" ON "Matter"("ownerId");

-- CreateIndex
CREATE INDEX "Matter_wellId_idx" ON "Matter"("wellId");

-- CreateIndex
CREATE UNIQUE INDEX "MailChoice_quietHash_key" ON "MailChoice"("quietHash");

-- CreateIndex
CREATE UNIQUE INDEX "MailChoice_feedHash_key" ON "MailChoice"("feedHash");

-- CreateIndex
CREATE INDEX "Mailing_state_claimedAt_idx" ON "Mailing"("state", "claimedAt");

-- CreateIndex
CREATE INDEX "Mailing_userId_claimedAt_idx" ON "Mailing"("userId", "claimedAt");

-- CreateIndex
CREATE INDEX "Mailing_claimedAt_idx" ON "Mailing"("claimedAt");

-- CreateIndex
CREATE INDEX "Reminder_userId_idx" ON "Reminder"("userId");

-- CreateIndex
CREATE INDEX "Reminder_mailingId_idx" ON "Reminder"("mailingId");

-- CreateIndex
CREATE INDEX "Reminder_itemId_idx" ON "Reminder"("itemId");
