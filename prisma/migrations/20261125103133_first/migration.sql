-- CreateTable
CREATE TABLE "Owner" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "name" TEXT NOT NULL,
    "nameKey" TEXT NOT NULL,
    "phone" TEXT,
    "email" TEXT,
    "notes" TEXT,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateTable
CREATE TABLE "Well" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "label" TEXT NOT NULL,
    "labelKey" TEXT NOT NULL,
    "name" TEXT,
    "ownerId" TEXT,
    "area" TEXT,
    "latitude" REAL,
    "longitude" REAL,
    "installedOn" TEXT,
    "wellDepthM" REAL,
    "casingBoreM" REAL,
    "casingOutsideM" REAL,
    "pitDiameterM" REAL,
    "pitLengthM" REAL,
    "pitWidthM" REAL,
    "gravelPorosity" REAL,
    "intakeDepthM" REAL,
    "liftM" REAL,
    "altitudeM" REAL,
    "demandM3PerS" REAL,
    "storageM3" REAL,
    "closedFrom" TEXT,
    "closedTo" TEXT,
    "closedWhy" TEXT,
    "access" TEXT,
    "notes" TEXT,
    "typed" TEXT NOT NULL DEFAULT '{}',
    "extra" TEXT NOT NULL DEFAULT '{}',
    "retiredOn" TEXT,
    "batchId" TEXT,
    "struck" BOOLEAN NOT NULL DEFAULT false,
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "Well_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "WellWord" (
    "word" TEXT NOT NULL,
    "wellId" TEXT NOT NULL,

    PRIMARY KEY ("word", "wellId"),
    CONSTRAINT "WellWord_wellId_fkey" FOREIGN KEY ("wellId") REFERENCES "Well" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Part" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "wellId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "model" TEXT,
    "size" TEXT,
    "fittedOn" TEXT,
    "warrantyUntil" TEXT,
    "removedOn" TEXT,
    "notes" TEXT,
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "Part_wellId_fkey" FOREIGN KEY ("wellId") REFERENCES "Well" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Duty" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "wellId" TEXT NOT NULL,
    "key" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "consequence" TEXT NOT NULL,
    "everyMonths" INTEGER,
    "everyRunS" REAL,
    "everyM3" REAL,
    "condition" TEXT,
    "conditionLimitSi" REAL,
    "lastDoneOn" TEXT,
    "typed" TEXT NOT NULL DEFAULT '{}',
    "retired" BOOLEAN NOT NULL DEFAULT false,
    "batchId" TEXT,
    "version" INTEGER NOT NULL DEFAULT 1,
    CONSTRAINT "Duty_wellId_fkey" FOREIGN KEY ("wellId") REFERENCES "Well" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Entry" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "wellId" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "occurredOn" TEXT NOT NULL,
    "occurredTime" TEXT,
    "payload" TEXT NOT NULL,
    "supersedes" TEXT,
    "withdraws" TEXT,
    "visitId" TEXT NOT NULL,
    "batchId" TEXT,
    "authorId" TEXT,
    "byName" TEXT,
    "source" TEXT NOT NULL,
    "recordedAt" TEXT NOT NULL,
    CONSTRAINT "Entry_wellId_fkey" FOREIGN KEY ("wellId") REFERENCES "Well" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Standing" (
    "wellId" TEXT NOT NULL PRIMARY KEY,
    "edition" INTEGER NOT NULL,
    "lastVisitOn" TEXT,
    "payload" TEXT NOT NULL,
    CONSTRAINT "Standing_wellId_fkey" FOREIGN KEY ("wellId") REFERENCES "Well" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "DueItem" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "wellId" TEXT NOT NULL,
    "dutyKey" TEXT NOT NULL,
    "dutyName" TEXT NOT NULL,
    "rank" INTEGER NOT NULL,
    "dueOn" TEXT NOT NULL,
    "basis" TEXT,
    "fromOn" TEXT,
    "toOn" TEXT,
    "reason" TEXT NOT NULL,
    "lastDoneOn" TEXT,
    "ownerId" TEXT,
    "area" TEXT,
    CONSTRAINT "DueItem_wellId_fkey" FOREIGN KEY ("wellId") REFERENCES "Well" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Batch" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "what" TEXT NOT NULL,
    "fileName" TEXT NOT NULL,
    "fileSha256" TEXT NOT NULL,
    "at" TEXT NOT NULL,
    "byUserId" TEXT,
    "byName" TEXT NOT NULL,
    "counts" TEXT NOT NULL,
    "undoneAt" TEXT,
    "undoneBy" TEXT
);

-- CreateTable
CREATE TABLE "Change" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "at" TEXT NOT NULL,
    "byUserId" TEXT,
    "byName" TEXT NOT NULL,
    "action" TEXT NOT NULL,
    "targetKind" TEXT NOT NULL,
    "targetId" TEXT NOT NULL,
    "wellId" TEXT,
    "before" TEXT,
    "after" TEXT
);

-- CreateTable
CREATE TABLE "Setting" (
    "key" TEXT NOT NULL PRIMARY KEY,
    "value" TEXT NOT NULL,
    "version" INTEGER NOT NULL DEFAULT 1
);

-- CreateTable
CREATE TABLE "User" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "name" TEXT NOT NULL,
    "email" TEXT NOT NULL,
    "emailVerified" BOOLEAN NOT NULL DEFAULT false,
    "image" TEXT,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updatedAt" DATETIME NOT NULL,
    "role" TEXT NOT NULL DEFAULT 'owner',
    "units" TEXT NOT NULL DEFAULT 'us',
    "ownerId" TEXT,
    "disabled" BOOLEAN NOT NULL DEFAULT false,
    CONSTRAINT "User_ownerId_fkey" FOREIGN KEY ("ownerId") REFERENCES "Owner" ("id") ON DELETE SET NULL ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Session" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "expiresAt" DATETIME NOT NULL,
    "token" TEXT NOT NULL,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updatedAt" DATETIME NOT NULL,
    "ipAddress" TEXT,
    "userAgent" TEXT,
    "userId" TEXT NOT NULL,
    CONSTRAINT "Session_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Account" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "accountId" TEXT NOT NULL,
    "providerId" TEXT NOT NULL,
    "userId" TEXT NOT NULL,
    "accessToken" TEXT,
    "refreshToken" TEXT,
    "idToken" TEXT,
    "accessTokenExpiresAt" DATETIME,
    "refreshTokenExpiresAt" DATETIME,
    "scope" TEXT,
    "password" TEXT,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updatedAt" DATETIME NOT NULL,
    CONSTRAINT "Account_userId_fkey" FOREIGN KEY ("userId") REFERENCES "User" ("id") ON DELETE CASCADE ON UPDATE CASCADE
);

-- CreateTable
CREATE TABLE "Verification" (
    "id" TEXT NOT NULL PRIMARY KEY,
    "identifier" TEXT NOT NULL,
    "value" TEXT NOT NULL,
    "expiresAt" DATETIME NOT NULL,
    "createdAt" DATETIME NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "updatedAt" DATETIME NOT NULL
);

-- CreateIndex
CREATE UNIQUE INDEX "Owner_nameKey_key" ON "Owner"("nameKey");

-- CreateIndex
CREATE UNIQUE INDEX "Well_labelKey_key" ON "Well"("labelKey");

-- CreateIndex
CREATE INDEX "Well_ownerId_idx" ON "Well"("ownerId");

-- CreateIndex
CREATE INDEX "Well_area_idx" ON "Well"("area");

-- CreateIndex
CREATE INDEX "Well_struck_labelKey_idx" ON "Well"("struck", "labelKey");

-- CreateIndex
CREATE INDEX "Well_batchId_idx" ON "Well"("batchId");

-- CreateIndex
CREATE INDEX "WellWord_wellId_idx" ON "WellWord"("wellId");

-- CreateIndex
CREATE INDEX "Part_wellId_idx" ON "Part"("wellId");

-- CreateIndex
CREATE INDEX "Duty_key_idx" ON "Duty"("key");

-- CreateIndex
CREATE INDEX "Duty_batchId_idx" ON "Duty"("batchId");

-- CreateIndex
CREATE UNIQUE INDEX "Duty_wellId_key_key" ON "Duty"("wellId", "key");

-- CreateIndex
CREATE INDEX "Entry_wellId_occurredOn_id_idx" ON "Entry"("wellId", "occurredOn", "id");

-- CreateIndex
CREATE INDEX "Entry_batchId_idx" ON "Entry"("batchId");

-- CreateIndex
CREATE INDEX "DueItem_rank_dueOn_id_idx" ON "DueItem"("rank", "dueOn", "id");

-- CreateIndex
CREATE INDEX "DueItem_dueOn_id_idx" ON "DueItem"("dueOn", "id");

-- CreateIndex
CREATE INDEX "DueItem_dutyKey_rank_dueOn_id_idx" ON "DueItem"("dutyKey", "rank", "dueOn", "id");

-- CreateIndex
CREATE INDEX "DueItem_ownerId_rank_dueOn_id_idx" ON "DueItem"("ownerId", "rank", "dueOn", "id");

-- CreateIndex
CREATE INDEX "DueItem_area_rank_dueOn_id_idx" ON "DueItem"("area", "rank", "dueOn", "id");

-- CreateIndex
CREATE INDEX "DueItem_wellId_idx" ON "DueItem"("wellId");

-- CreateIndex
CREATE INDEX "Batch_at_idx" ON "Batch"("at");

-- CreateIndex
CREATE INDEX "Change_wellId_at_idx" ON "Change"("wellId", "at");

-- CreateIndex
CREATE INDEX "Change_targetKind_targetId_idx" ON "Change"("targetKind", "targetId");

-- CreateIndex
CREATE UNIQUE INDEX "User_email_key" ON "User"("email");

-- CreateIndex
CREATE INDEX "User_ownerId_idx" ON "User"("ownerId");

-- CreateIndex
CREATE UNIQUE INDEX "Session_token_key" ON "Session"("token");

-- CreateIndex
CREATE INDEX "Session_userId_idx" ON "Session"("userId");

-- CreateIndex
CREATE INDEX "Account_userId_idx" ON "Account"("userId");

-- CreateIndex
CREATE INDEX "Verification_identifier_idx" ON "Verification"("identifier");

-- The logbook and the change record are append-only: a correction is a new line.
CREATE TRIGGER "Entry_no_update" BEFORE UPDATE ON "Entry"
BEGIN
    SELECT RAISE(ABORT, 'entries are never changed: record a correction');
END;

CREATE TRIGGER "Entry_no_delete" BEFORE DELETE ON "Entry"
BEGIN
    SELECT RAISE(ABORT, 'entries are never deleted: record a withdrawal');
END;

CREATE TRIGGER "Change_no_update" BEFORE UPDATE ON "Change"
BEGIN
    SELECT RAISE(ABORT, 'the change record is append-only');
END;

CREATE TRIGGER "Change_no_delete" BEFORE DELETE ON "Change"
BEGIN
    SELECT RAISE(ABORT, 'the change record is append-only');
END;
