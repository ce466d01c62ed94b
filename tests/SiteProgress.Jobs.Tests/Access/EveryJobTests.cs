using System.Reflection;
using Microsoft.Extensions.DependencyInjection;
using Shouldly;
using SiteProgress.Jobs.Access;
using Xunit;

namespace SiteProgress.Jobs.Tests.Access;

/// <summary>Every job there is, found by reflection, with every role there is.</summary>
public sealed class EveryJobTests(JobsDatabase database) : IClassFixture<JobsDatabase>, IAsyncLifetime
{
    private const string Site = "every-job";
    private readonly OpenedStore store = new(database.OwnerConnectionString);

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        if ((await store.Get<Gate>().EnterAsync(Guid.Empty, Site, Cancellation)) is null
            && !await SiteIsOpenAsync()) await store.OpenSiteAsync(Site);
    }

    public ValueTask DisposeAsync() => store.DisposeAsync();

    [Fact]
    public void Every_public_method_of_a_job_takes_a_permit_first_or_says_why_not()
    {
        string[] without = [.. JobServices.JobClasses()
            .Where(type => !type.IsDefined(typeof(WithoutPermitAttribute)))
            .SelectMany(JobServices.JobMethods)
            .Where(method => !method.IsDefined(typeof(WithoutPermitAttribute)) && !TakesPermit(method))
            .Select(Named)];
        without.ShouldBeEmpty();
    }

    [Fact]
    public void Every_public_method_that_waits_belongs_to_a_job_class()
    {
        HashSet<Type> jobs = [.. JobServices.JobClasses()];
        string[] outside = [.. typeof(JobServices).Assembly.GetExportedTypes()
            .Where(type => type is { IsClass: true, IsAbstract: false } && !jobs.Contains(type) && type != typeof(Gate))
            .SelectMany(JobServices.JobMethods)
            .Where(method => typeof(Task).IsAssignableFrom(method.ReturnType) || method.ReturnType.Name.StartsWith("ValueTask", StringComparison.Ordinal)
                || method.ReturnType.Name.StartsWith("IAsyncEnumerable", StringComparison.Ordinal))
            .Select(Named)];
        outside.ShouldBeEmpty();
    }

    [Fact]
    public void Every_job_method_with_a_permit_says_which_right_it_needs()
        => MethodsWithPermit().Where(method => method.GetCustomAttribute<NeedsAttribute>() is null && !method.IsDefined(typeof(WithoutPermitAttribute)))
            .Select(Named).ShouldBeEmpty();

    [Fact]
    public async Task Every_job_refuses_exactly_the_roles_that_lack_its_right()
    {
        List<string> wrong = [];
        Guid person = await store.PersonAsync($"every-{Guid.NewGuid():N}@example.org");
        foreach (Role role in Enum.GetValues<Role>())
        {
            foreach (MethodInfo method in MethodsWithPermit().Where(method => method.IsDefined(typeof(NeedsAttribute))))
            {
                await store.Get<Sites.GrantRole>().RunAsOperatorAsync(Site, person, role, Cancellation);
                Permit permit = (await store.Get<Gate>().EnterAsync(person, Site, Cancellation)).ShouldNotBeNull();
                bool holds = RoleRights.Holds(role, method.GetCustomAttribute<NeedsAttribute>()!.Right);
                bool refused = await IsRefusedAsync(method, permit);
                if (refused == holds) wrong.Add($"{Named(method)} with {role}: {(refused ? "refused" : "not refused")}");
            }
        }

        wrong.ShouldBeEmpty();
    }

    private async Task<bool> SiteIsOpenAsync()
    {
        await using var connection = new Npgsql.NpgsqlConnection(database.OwnerConnectionString);
        await connection.OpenAsync(Cancellation);
        await using var command = new Npgsql.NpgsqlCommand("select exists (select from record.site where code = $1)", connection)
        {
            Parameters = { new() { Value = Site } },
        };
        return (bool)(await command.ExecuteScalarAsync(Cancellation))!;
    }

    private static IEnumerable<MethodInfo> MethodsWithPermit()
        => JobServices.JobClasses().SelectMany(JobServices.JobMethods).Where(TakesPermit);

    private static bool TakesPermit(MethodInfo method)
        => method.GetParameters() is [{ } first, ..] && first.ParameterType == typeof(Permit);

    /// <summary>
    /// Calls the method with empty arguments. The right is demanded before anything else, so a role that lacks it is
    /// refused whatever the arguments are; one that holds it gets on to whatever the empty arguments lead to.
    /// </summary>
    private async Task<bool> IsRefusedAsync(MethodInfo method, Permit permit)
    {
        using IServiceScope work = store.Work();
        object job = work.ServiceProvider.GetRequiredService(method.DeclaringType!);
        MethodInfo closed = method.IsGenericMethodDefinition
            ? method.MakeGenericMethod([.. method.GetGenericArguments().Select(_ => typeof(object))])
            : method;
        object?[] arguments = [.. closed.GetParameters().Select(parameter => Argument(parameter, permit))];
        try
        {
            await FinishAsync(closed.Invoke(job, arguments));
            return false;
        }
        catch (Exception failure)
        {
            Exception cause = failure is TargetInvocationException { InnerException: { } inner } ? inner : failure;
            return cause is AccessRefusedException;
        }
    }

    private static object? Argument(ParameterInfo parameter, Permit permit)
    {
        Type type = parameter.ParameterType;
        if (type == typeof(Permit)) return permit;
        if (type == typeof(string)) return "";
        if (type == typeof(Stream)) return new MemoryStream();
        return type.IsValueType ? Activator.CreateInstance(type) : null;
    }

    private static async Task FinishAsync(object? answer)
    {
        switch (answer)
        {
            case Task task:
                await task;
                break;
            case ValueTask task:
                await task;
                break;
            case { } other when other.GetType().GetMethod("AsTask") is { } asTask:
                await (Task)asTask.Invoke(other, null)!;
                break;
            case { } other when other.GetType().GetInterfaces().FirstOrDefault(IsAsyncSequence) is { } sequence:
                await FirstOfAsync(other, sequence);
                break;
        }
    }

    private static bool IsAsyncSequence(Type type) => type.IsGenericType && type.GetGenericTypeDefinition() == typeof(IAsyncEnumerable<>);

    private static async Task FirstOfAsync(object sequence, Type type)
    {
        object walker = type.GetMethod("GetAsyncEnumerator")!.Invoke(sequence, [CancellationToken.None])!;
        MethodInfo move = typeof(IAsyncEnumerator<>).MakeGenericType(type.GetGenericArguments()).GetMethod("MoveNextAsync")!;
        await (ValueTask<bool>)move.Invoke(walker, null)!;
        await ((IAsyncDisposable)walker).DisposeAsync();
    }

    private static string Named(MethodInfo method) => $"{method.DeclaringType!.Name}.{method.Name}";
}
