namespace SiteProgress.Core.Records;

/// <summary>What a record says. The word is part of the canonical form, so a name here is never changed, only added.</summary>
public enum RecordKind
{
    /// <summary>The site was opened with its settings.</summary>
    SiteOpened = 1,

    /// <summary>The settings were revised.</summary>
    SettingsRevised = 2,

    /// <summary>A person was given a role, or another one.</summary>
    RoleGranted = 3,

    /// <summary>A person's role was withdrawn.</summary>
    RoleWithdrawn = 4,

    /// <summary>An adjustment of the site grid was adopted.</summary>
    AdjustmentAdopted = 5,

    /// <summary>Records came in together; the rows follow.</summary>
    BatchRecorded = 10,

    /// <summary>A batch was withdrawn; its records stay, and no longer count.</summary>
    BatchWithdrawn = 11,

    /// <summary>One row of a pile schedule.</summary>
    PilePlanned = 20,

    /// <summary>One attempt at one pile.</summary>
    PileInstalled = 21,

    /// <summary>One independent measurement of a casing position.</summary>
    PositionChecked = 22,

    /// <summary>One line of a sand account: a load delivered, a stock measured, sand lost.</summary>
    SandDelivered = 50,
}
