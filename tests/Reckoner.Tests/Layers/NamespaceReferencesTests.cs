using System.ComponentModel;
using Mono.Cecil;
using Mono.Cecil.Cil;
using Xunit;

namespace Reckoner.Tests.Layers;

/// <summary>The reader of references itself: of each sort of reference it is given an assembly that has no other.</summary>
public class NamespaceReferencesTests
{
    /// <summary>How a type of one namespace comes to use a type of another.</summary>
    private static readonly Dictionary<string, Action<TypeDefinition, TypeDefinition>> Sorts = new()
    {
        ["base"] = (user, used) => user.BaseType = used,
        ["interface"] = (user, used) => user.Interfaces.Add(new InterfaceImplementation(used)),
        ["field"] = (user, used) => user.Fields.Add(new FieldDefinition("field", FieldAttributes.Private, used)),
        ["array"] = (user, used) =>
            user.Fields.Add(new FieldDefinition("field", FieldAttributes.Private, new ArrayType(used))),
        ["type argument"] = (user, used) =>
        {
            var list = new GenericInstanceType(user.Module.ImportReference(typeof(List<>)));
            list.GenericArguments.Add(used);
            user.Fields.Add(new FieldDefinition("field", FieldAttributes.Private, list));
        },
        ["what a method returns"] = (user, used) => Method(user).ReturnType = used,
        ["parameter"] = (user, used) => Method(user).Parameters.Add(new ParameterDefinition(used)),
        ["local"] = (user, used) => Method(user).Body.Variables.Add(new VariableDefinition(used)),
        ["call"] = (user, used) => First(Method(user), Instruction.Create(OpCodes.Call, used.Methods[0])),
        ["cast"] = (user, used) => First(Method(user), Instruction.Create(OpCodes.Castclass, used)),
        ["what is caught"] = (user, used) =>
        {
            var body = Method(user).Body;
            var (tried, caught) = (Instruction.Create(OpCodes.Nop), Instruction.Create(OpCodes.Nop));
            body.Instructions.Insert(0, tried);
            body.Instructions.Insert(1, caught);
            body.ExceptionHandlers.Add(
                new ExceptionHandler(ExceptionHandlerType.Catch)
                {
                    TryStart = tried,
                    TryEnd = caught,
                    HandlerStart = caught,
                    HandlerEnd = body.Instructions[2],
                    CatchType = used,
                }
            );
        },
        ["attribute of a type"] = (user, used) => Mark(user, used),
        ["attribute of a field"] = (user, used) =>
        {
            user.Fields.Add(new FieldDefinition("field", FieldAttributes.Private, user.Module.TypeSystem.Int32));
            Mark(user.Fields[0], used);
        },
        ["attribute of a property"] = (user, used) =>
        {
            var property = new PropertyDefinition("property", PropertyAttributes.None, user.Module.TypeSystem.Int32);
            user.Properties.Add(property);
            Mark(property, used);
        },
        ["attribute of an event"] = (user, used) =>
        {
            var handler = user.Module.ImportReference(typeof(EventHandler));
            user.Events.Add(new EventDefinition("event", EventAttributes.None, handler));
            Mark(user.Events[0], used);
        },
        ["attribute of a method"] = (user, used) => Mark(Method(user), used),
        ["attribute of what is returned"] = (user, used) => Mark(Method(user).MethodReturnType, used),
        ["attribute of a parameter"] = (user, used) =>
        {
            var parameter = new ParameterDefinition(user.Module.TypeSystem.Int32);
            Method(user).Parameters.Add(parameter);
            Mark(parameter, used);
        },
        ["type given to an attribute"] = (user, used) =>
            Attribute(user, typeof(TypeConverterAttribute), typeof(Type))
                .ConstructorArguments.Add(Given(user.Module, typeof(Type), used)),
        ["type given to an attribute as any value"] = (user, used) =>
            Attribute(user, typeof(DefaultValueAttribute), typeof(object))
                .ConstructorArguments.Add(Given(user.Module, typeof(object), Given(user.Module, typeof(Type), used))),
        ["type given to an attribute by name"] = (user, used) =>
            Attribute(user, typeof(System.Diagnostics.DebuggerTypeProxyAttribute), typeof(string))
                .Properties.Add(new("Target", Given(user.Module, typeof(Type), used))),
        ["what a type argument must be"] = (user, used) => user.GenericParameters.Add(Constrained(user, used)),
        ["what a type argument of a method must be"] = (user, used) =>
        {
            var method = Method(user);
            method.GenericParameters.Add(Constrained(method, used));
        },
    };

    public static TheoryData<string> Names => [.. Sorts.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void A_reference_of_every_sort_is_read(string sort)
    {
        Assert.Equal([("Reckoner.User", "Reckoner.Used")], Read(Sorts[sort]));
        Assert.Empty(Read((_, _) => { }));
    }

    /// <summary>The references of an assembly with one type in each of two namespaces, written and read back.</summary>
    private static IEnumerable<(string, string)> Read(Action<TypeDefinition, TypeDefinition> refer)
    {
        using var made = ModuleDefinition.CreateModule("made", ModuleKind.Dll);
        var used = new TypeDefinition("Reckoner.Used", "Thing", TypeAttributes.Public, made.TypeSystem.Object);
        var user = new TypeDefinition("Reckoner.User", "Thing", TypeAttributes.Public, made.TypeSystem.Object);
        made.Types.Add(used);
        made.Types.Add(user);
        const MethodAttributes Constructor =
            MethodAttributes.Public | MethodAttributes.SpecialName | MethodAttributes.RTSpecialName;
        Ends(used, new MethodDefinition(".ctor", Constructor, made.TypeSystem.Void));
        refer(user, used);
        using var stream = new MemoryStream();
        made.Write(stream);
        stream.Position = 0;
        using var read = ModuleDefinition.ReadModule(stream);
        return NamespaceReferences.Of(read).SelectMany(u => u.Value.Keys, (u, other) => (u.Key, other)).ToList();
    }

    private static MethodDefinition Method(TypeDefinition type) =>
        Ends(type, new MethodDefinition("method", MethodAttributes.Public, type.Module.TypeSystem.Void));

    private static MethodDefinition Ends(TypeDefinition type, MethodDefinition method)
    {
        method.Body.Instructions.Add(Instruction.Create(OpCodes.Ret));
        type.Methods.Add(method);
        return method;
    }

    private static void First(MethodDefinition method, Instruction instruction) =>
        method.Body.Instructions.Insert(0, instruction);

    private static void Mark(ICustomAttributeProvider marked, TypeDefinition used) =>
        marked.CustomAttributes.Add(new CustomAttribute(used.Methods[0]));

    private static CustomAttribute Attribute(TypeDefinition marked, Type attribute, Type takes)
    {
        var mark = new CustomAttribute(marked.Module.ImportReference(attribute.GetConstructor([takes])));
        if (takes == typeof(string))
        {
            mark.ConstructorArguments.Add(Given(marked.Module, takes, ""));
        }
        marked.CustomAttributes.Add(mark);
        return mark;
    }

    private static CustomAttributeArgument Given(ModuleDefinition module, Type type, object value) =>
        new(module.ImportReference(type), value);

    private static GenericParameter Constrained(IGenericParameterProvider owner, TypeDefinition used)
    {
        var parameter = new GenericParameter("T", owner);
        parameter.Constraints.Add(new GenericParameterConstraint(used));
        return parameter;
    }
}
