-- CreateTable
CREATE TABLE "Membership" (
    "userId" TEXT NOT NULL,
    "ownerId" TEXT NOT NULL,
    "since" TEXT NOT NULL,
    "until" TEXT,

    PRIMARY KEY ("userId", "ownerId"),
    CONSTRAINT "Membership_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User" ("id") ON DELETE CASCADE ON UPDATE CASCADE,
    CONSTRAINT "Membership_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Grant" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "wellId" TEXT NOT NULL,
    "ownerId" TEXT NOT NULL,
    "upTo" TEXT NOT NULL,
    "createdAt" TEXT NOT NULL,
    "createdBy" TEXT NOT NULL,
    "revokedAt" TEXT,
    CONSTRAINT "Grant_wellId_fkey" FOREIGN KEY ("wellId") REFERENCES "Well" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
    CONSTRAINT "Grant_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Passkey" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "name" TEXT,
    "publicKey" TEXT NOT NULL,
    "userId" TEXT NOT NULL,
    "credentialID" TEXT NOT NULL,
    "counter" INTEGER NOT NULL,
    "deviceType" TEXT NOT NULL,
    "backedUp" BOOLEAN NOT NULL,
    "transports" TEXT,
    "createdAt" DATETIME,
    "aaguid" TEXT,
    CONSTRAINT "Passkey_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "ResetCode" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "codeHash" TEXT NOT NULL,
    "userId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "createdAt" TEXT NOT NULL,
    "expiresAt" TEXT NOT NULL,
    "usedAt" TEXT,
    CONSTRAINT "ResetCode_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- Whoever belongs to a household goes on belonging to it, from the day of their account.
INSERT INTO "Membership" ("userId", "ownerId", "since")
SELECT "id", "ownerId", CASE typeof("createdAt") WHEN 'text' THEN substr("createdAt", 1, 10) ELSE date("createdAt" / 1000, 'unixepoch') END
FROM "User" WHERE "ownerId" IS NOT NULL;

-- RedefineTables
PRAGMA defer_foreign_keys=ON;
PRAGMA foreign_keys=OFF;
CREATE TABLE "new_User" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "name" TEXT NOT NULL,
    "email" TEXT NOT NULL,
    "emailVerified" BOOLEAN NOT NULL DEFAULT false,
    "image" TEXT,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updatedAt" DATETIME NOT NULL,
    "role" TEXT NOT NULL DEFAULT 'owner',
    "units" TEXT NOT NULL DEFAULT 'us',
    "disabled" BOOLEAN NOT NULL DEFAULT false
);
INSERT INTO "new_User" ("createdAt", "disabled", "email", "emailVerified", "id", "image", "name", "role", "units", "updatedAt") SELECT "createdAt", "disabled", "email", "emailVerified", "id", "image", "name", "role", "units", "updatedAt" FROM "User";
DROP TABLE "User";
ALTER TABLE "new_User" RENAME TO "User";
CREATE UNIQUE INDEX "User_email_key" ON "User"("email");
PRAGMA foreign_keys=ON;
PRAGMA defer_foreign_keys=OFF;

-- CreateIndex
CREATE INDEX "Membership_ownerId_idx" ON "Membership"("ownerId");

-- CreateIndex
CREATE INDEX "Grant_ownerId_idx" ON "Grant"("ownerId");

-- CreateIndex
CREATE INDEX "Grant_wellId_idx" ON "Grant"("wellId");

-- CreateIndex
CREATE UNIQUE INDEX "Passkey_credentialID_key" ON "Passkey"("credentialID");

-- CreateIndex
CREATE INDEX "Passkey_userId_idx" ON "Passkey"("userId");

-- CreateIndex
CREATE UNIQUE INDEX "ResetCode_codeHash_key" ON "ResetCode"("codeHash");

-- CreateIndex
CREATE INDEX "ResetCode_userId_idx" ON "ResetCode"("userId");

-- A line of the change record is never rewritten and never goes. What it says of a person who is forgotten can be
-- blanked, by these words and no others.
DROP TRIGGER "Change_no_update";
CREATE TRIGGER "Change_no_update" BEFORE UPDATE ON "Change"
WHEN NEW."id" IS NOT OLD."id" OR NEW."at" IS NOT OLD."at" OR NEW."byUserId" IS NOT OLD."byUserId"
    OR NEW."action" IS NOT OLD."action" OR NEW."targetKind" IS NOT OLD."targetKind"
    OR NEW."targetId" IS NOT OLD."targetId" OR NEW."wellId" IS NOT OLD."wellId"
    OR (NEW."byName" IS NOT OLD."byName" AND NEW."byName" IS NOT 'a former owner')
    OR (NEW."before" IS NOT OLD."before" AND NEW."before" IS NOT '"forgotten"')
    OR (NEW."after" IS NOT OLD."after" AND NEW."after" IS NOT '"forgotten"')
BEGIN
    SELECT RAISE(ABORT, 'the change record is append-only');
END;
