import eu.europa.esig.dss.diagnostic.SignatureWrapper;
import eu.europa.esig.dss.diagnostic.TimestampWrapper;
import eu.europa.esig.dss.model.FileDocument;
import eu.europa.esig.dss.spi.validation.CommonCertificateVerifier;
import eu.europa.esig.dss.validation.SignedDocumentValidator;
import eu.europa.esig.dss.validation.reports.Reports;
import java.io.File;

/**
 * What the EU's Digital Signature Service says of signed PDF files. Prints "FILE FORMAT intact|broken N
 * modified|unmodified C T": N signatures, C certificates from the signer's upwards, T timestamps that fit.
 */
public final class Judge {
    public static void main(String[] files) {
        for (String file : files) {
            SignedDocumentValidator validator = SignedDocumentValidator.fromDocument(new FileDocument(new File(file)));
            validator.setCertificateVerifier(new CommonCertificateVerifier());
            Reports reports = validator.validateDocument();
            for (SignatureWrapper one : reports.getDiagnosticData().getSignatures()) {
                System.out.println(file + " " + one.getSignatureFormat() + " "
                    + (one.isSignatureIntact() && one.isSignatureValid() ? "intact" : "broken") + " "
                    + reports.getDiagnosticData().getSignatures().size() + " "
                    + (one.arePdfModificationsDetected() ? "modified" : "unmodified") + " "
                    + one.getCertificateChain().size() + " "
                    + one.getTimestampList().stream().filter(Judge::fits).count());
            }
        }
    }

    private static boolean fits(TimestampWrapper stamp) {
        return stamp.isMessageImprintDataIntact() && stamp.isSignatureIntact() && stamp.isSignatureValid();
    }
}
