using System.Reflection;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using SiteProgress.Jobs.Access;

namespace SiteProgress.Jobs;

/// <summary>Puts the jobs into a service collection.</summary>
public static class JobServices
{
    /// <summary>
    /// Every job class, transient, and the gate. A job class is one that has a public method taking a <see cref="Permit"/>
    /// or excused from it; there is no list to keep. What was added before stays as it was added.
    /// </summary>
    public static IServiceCollection AddJobs(this IServiceCollection services)
    {
        services.TryAddSingleton(TimeProvider.System);
        services.TryAddSingleton<Gate>();
        services.TryAddSingleton(new Senders.SenderLimits());
        // A class only its own job can make, such as an answer, is no service.
        foreach (Type job in JobClasses().Where(job => job.GetConstructors().Length > 0))
        {
            if (!services.Any(known => known.ImplementationType == job || known.ImplementationInstance?.GetType() == job))
                services.TryAddTransient(job);
        }

        return services;
    }

    /// <summary>The job classes of this assembly.</summary>
    public static IEnumerable<Type> JobClasses()
        => typeof(JobServices).Assembly.GetExportedTypes().Where(type =>
            type is { IsClass: true, IsAbstract: false }
            && (type.IsDefined(typeof(WithoutPermitAttribute)) || JobMethods(type).Any(IsJob)));

    /// <summary>The public methods a class declares itself, without what properties and records bring along.</summary>
    public static IEnumerable<MethodInfo> JobMethods(Type type)
        => type.GetMethods(BindingFlags.Public | BindingFlags.Instance | BindingFlags.DeclaredOnly)
            .Where(method => !method.IsSpecialName);

    private static bool IsJob(MethodInfo method)
        => method.IsDefined(typeof(WithoutPermitAttribute))
            || (method.GetParameters() is [{ } first, ..] && first.ParameterType == typeof(Permit));
}
