import java.io.FileInputStream;
import java.util.TreeSet;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.TestAssertion;
import org.verapdf.pdfa.results.ValidationResult;

/** Holds each file against each flavour: Vera 3a,ua1 FILE... One line a breach; the exit code counts the files that fail. */
public class Vera {
  public static void main(String[] args) throws Exception {
    VeraGreenfieldFoundryProvider.initialise();
    int failed = 0;
    for (String name : args[0].split(",")) {
      PDFAFlavour flavour = PDFAFlavour.byFlavourId(name);
      for (int i = 1; i < args.length; i++) {
        ValidationResult result = judged(flavour, args[i]);
        System.out.println((result.isCompliant() ? "meets " : "breaks ") + name + " " + args[i]);
        breaches(result).forEach(System.out::println);
        failed += result.isCompliant() ? 0 : 1;
      }
    }
    System.exit(failed);
  }

  private static ValidationResult judged(PDFAFlavour flavour, String file) throws Exception {
    try (var parser = Foundries.defaultInstance().createParser(new FileInputStream(file), flavour);
        var validator = Foundries.defaultInstance().createValidator(flavour, false)) {
      return validator.validate(parser);
    }
  }

  private static TreeSet<String> breaches(ValidationResult result) {
    TreeSet<String> found = new TreeSet<>();
    for (TestAssertion each : result.getTestAssertions()) {
      if (each.getStatus() == TestAssertion.Status.FAILED) {
        found.add("  " + each.getRuleId().getClause() + "-" + each.getRuleId().getTestNumber() + " " + each.getMessage());
      }
    }
    return found;
  }
}
