// The least that any program must do to put these photos into a report: read, hash, read the Exif, decode at the scale
// at which the photo is printed, encode. No checks, no layout, no PDF, no seal. What `rigdeed issue` takes is held
// against this.
//
// usage: bench_floor FOLDER LIST THREADS
// LIST has a line "NAME LONG_SIDE" for each photo. Prints the bytes of all copies for print.

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <atomic>
#include <cstdio>
#include <cstdlib>
#include <exiv2/exiv2.hpp>
#include <fstream>
#include <iostream>
#include <string>
#include <thread>
#include <vector>

#include <jpeglib.h>
#include <openssl/evp.h>

namespace {

struct Task {
    std::string file;
    unsigned long_side;
};

std::vector<unsigned char> read_whole(const std::string& file) {
    const int descriptor = ::open(file.c_str(), O_RDONLY);
    struct stat status {};
    if (descriptor < 0 || ::fstat(descriptor, &status) != 0) std::exit(2);
    std::vector<unsigned char> bytes(static_cast<std::size_t>(status.st_size));
    for (std::size_t at = 0; at < bytes.size();) {
        const ssize_t count = ::read(descriptor, bytes.data() + at, bytes.size() - at);
        if (count <= 0) std::exit(2);
        at += static_cast<std::size_t>(count);
    }
    ::close(descriptor);
    return bytes;
}

/// The first segment of these files is JFIF, the second Exif.
void read_exif(const std::vector<unsigned char>& bytes) {
    std::size_t at = 2;
    while (bytes[at + 1] != 0xE1) at += 2U + (static_cast<std::size_t>(bytes[at + 2]) << 8) + bytes[at + 3];
    const std::size_t length = (static_cast<std::size_t>(bytes[at + 2]) << 8) + bytes[at + 3];
    Exiv2::ExifData exif;
    Exiv2::ExifParser::decode(exif, bytes.data() + at + 10, static_cast<std::uint32_t>(length - 8));
    if (exif.empty()) std::exit(2);
}

std::size_t print_copy(const std::vector<unsigned char>& bytes, unsigned long_side) {
    jpeg_decompress_struct decoder{};
    jpeg_error_mgr errors{};
    decoder.err = jpeg_std_error(&errors);
    jpeg_create_decompress(&decoder);
    jpeg_mem_src(&decoder, bytes.data(), static_cast<unsigned long>(bytes.size()));
    jpeg_read_header(&decoder, TRUE);
    decoder.scale_denom = 8;
    for (decoder.scale_num = 1; decoder.scale_num < 8 && (decoder.image_width * decoder.scale_num + 7) / 8 < long_side;)
        ++decoder.scale_num;
    decoder.out_color_space = decoder.jpeg_color_space;
    jpeg_start_decompress(&decoder);
    const std::size_t stride = decoder.output_width * static_cast<unsigned>(decoder.output_components);
    std::vector<unsigned char> pixels(stride * decoder.output_height);
    while (decoder.output_scanline < decoder.output_height) {
        JSAMPROW row = pixels.data() + decoder.output_scanline * stride;
        jpeg_read_scanlines(&decoder, &row, 1);
    }
    jpeg_finish_decompress(&decoder);

    jpeg_compress_struct encoder{};
    encoder.err = &errors;
    jpeg_create_compress(&encoder);
    unsigned char* buffer = nullptr;
    unsigned long size = 0;
    jpeg_mem_dest(&encoder, &buffer, &size);
    encoder.image_width = decoder.output_width, encoder.image_height = decoder.output_height;
    encoder.input_components = decoder.output_components, encoder.in_color_space = decoder.out_color_space;
    jpeg_set_defaults(&encoder);
    jpeg_set_quality(&encoder, 82, TRUE);
    encoder.optimize_coding = TRUE;
    jpeg_start_compress(&encoder, TRUE);
    while (encoder.next_scanline < encoder.image_height) {
        JSAMPROW row = pixels.data() + encoder.next_scanline * stride;
        jpeg_write_scanlines(&encoder, &row, 1);
    }
    jpeg_finish_compress(&encoder);
    jpeg_destroy_compress(&encoder);
    jpeg_destroy_decompress(&decoder);
    std::free(buffer);
    return size;
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 4) return std::cerr << "usage: bench_floor FOLDER LIST THREADS\n", 2;
    std::vector<Task> tasks;
    std::ifstream list(argv[2]);
    for (Task task; list >> task.file >> task.long_side;)
        tasks.push_back({std::string(argv[1]) + "/" + task.file, task.long_side});
    Exiv2::LogMsg::setLevel(Exiv2::LogMsg::mute);

    std::atomic<std::size_t> next{0}, total{0};
    const auto run = [&] {
        for (std::size_t i = next++; i < tasks.size(); i = next++) {
            const auto bytes = read_whole(tasks[i].file);
            unsigned char digest[EVP_MAX_MD_SIZE];
            if (EVP_Digest(bytes.data(), bytes.size(), digest, nullptr, EVP_sha256(), nullptr) != 1) std::exit(2);
            read_exif(bytes);
            total += print_copy(bytes, tasks[i].long_side);
        }
    };
    std::vector<std::jthread> threads;
    for (int i = 1; i < std::atoi(argv[3]); ++i) threads.emplace_back(run);
    run();
    threads.clear();
    std::cout << total << "\n";
}
