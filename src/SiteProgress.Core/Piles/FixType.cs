namespace SiteProgress.Core.Piles;

/// <summary>The kind of satellite fix behind a recorded position. Only an RTK-fixed one is judged against tolerance.</summary>
public enum FixType
{
    /// <summary>Carrier-phase ambiguities solved: centimetres.</summary>
    RtkFixed = 1,

    /// <summary>Carrier-phase ambiguities not solved: decimetres.</summary>
    RtkFloat = 2,

    /// <summary>Code differential: about a metre.</summary>
    Differential = 3,

    /// <summary>Autonomous: several metres.</summary>
    Autonomous = 4,
}
