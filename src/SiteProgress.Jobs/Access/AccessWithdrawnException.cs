namespace SiteProgress.Jobs.Access;

/// <summary>The role by which a permit was made was withdrawn or changed before the job could record anything.</summary>
public sealed class AccessWithdrawnException() : Exception("The role was withdrawn or changed in the meantime; nothing was recorded.");
